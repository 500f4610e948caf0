using Tightcold.Numerics.Sampling;

namespace Tightcold.SecondWorld.Cars;

/// <summary>
/// The instruments of one visit: a dial set of class 1.6 (10 and 35 bar), a clamp that reads between pipe and air, a
/// probe in the vent. What is wrong with them stays the same all visit; a little is new at each look.
/// </summary>
public sealed class DialSet
{
    private readonly SeededChance chance;
    private readonly double lowZero;
    private readonly double lowGain;
    private readonly double highZero;
    private readonly double highGain;
    private readonly double thermometer;
    private readonly double clampLeak;

    public DialSet(SeededChance chance)
    {
        ArgumentNullException.ThrowIfNull(chance);
        this.chance = chance;
        lowZero = 0.04e5 * chance.Normal();
        lowGain = 1 + 0.012 * chance.Normal();
        highZero = 0.12e5 * chance.Normal();
        highGain = 1 + 0.012 * chance.Normal();
        thermometer = 0.5 * chance.Normal();
        clampLeak = chance.Between(0.03, 0.13);
    }

    public double Low(double gaugePa) => Round((gaugePa * lowGain) + lowZero + (0.03e5 * chance.Normal()), 0.05e5);

    public double High(double gaugePa) => Round((gaugePa * highGain) + highZero + (0.1e5 * chance.Normal()), 0.25e5);

    public double Probe(double celsius) => Round(celsius + thermometer + (0.3 * chance.Normal()), 0.1);

    public double Clamp(double celsius, double airC) =>
        Round(celsius + (clampLeak * (airC - celsius)) + thermometer + (0.6 * chance.Normal()), 0.1);

    private static double Round(double value, double step) => Math.Round(value / step) * step;
}
