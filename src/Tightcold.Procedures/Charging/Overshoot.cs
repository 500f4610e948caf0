using Tightcold.Numerics.Distributions;

namespace Tightcold.Procedures.Charging;

/// <summary>How sure it is that too much went in, and what has to come out again.</summary>
/// <param name="TooMuch">Probability that the charge lies above target plus tolerance.</param>
/// <param name="FarTooMuch">Probability of more than 110 % of the target: the stop rule of the loop model asks for less
/// than 5 %.</param>
/// <param name="TakeOutKg">To recover so that the middle of the belief meets the target; 0 when not above it.</param>
public readonly record struct Overshoot(double TooMuch, double FarTooMuch, double TakeOutKg)
{
    public const double StopAbove = 0.05;

    public bool MustStop => FarTooMuch > StopAbove;

    public static Overshoot Of(double inSystemKg, double sigmaKg, double targetKg, double toleranceKg)
    {
        if (!(targetKg > 0 && toleranceKg >= 0 && sigmaKg >= 0 && double.IsFinite(inSystemKg)))
            throw new ArgumentOutOfRangeException(
                nameof(targetKg),
                targetKg,
                "a target above 0 and finite masses are needed"
            );
        var spread = Math.Max(sigmaKg, 1e-6);
        double Above(double limit) => 1 - Normal.Cumulative((limit - inSystemKg) / spread);
        return new(Above(targetKg + toleranceKg), Above(1.1 * targetKg), Math.Max(0, inSystemKg - targetKg));
    }

    /// <summary>Odds that the charge lies within the tolerance of the target, 0 to 1.</summary>
    public static double OddsWithin(double inSystemKg, double sigmaKg, double targetKg, double toleranceKg)
    {
        // No scale is surer than a tenth of a gram.
        var spread = Math.Max(sigmaKg, 1e-4);
        return Normal.Cumulative((targetKg + toleranceKg - inSystemKg) / spread)
            - Normal.Cumulative((targetKg - toleranceKg - inSystemKg) / spread);
    }
}
