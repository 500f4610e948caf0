using Tightcold.Properties;

namespace Tightcold.Bench;

/// <summary>The points of all property benchmarks: log-uniform pressure, uniform temperature, a third under the dome;
/// the same in every run, and so many that a processor cannot learn by heart which branch each takes.</summary>
internal sealed class StatePoints
{
    public const int Count = 200_000;

    private static readonly Dictionary<string, StatePoints> Made = [];

    public static StatePoints Of(string name) =>
        Made.TryGetValue(name, out var made) ? made : Made[name] = new StatePoints(name);

    private StatePoints(string name)
    {
        var fluid = FluidCatalog.Get(name);
        var fast = fluid.Fast;
        var random = new Random(7);
        var top = Math.Min(fluid.CriticalTemperatureK, fast.MaxTemperatureK) - 1;
        for (var i = 0; i < Count; )
        {
            var single = fluid.AtTemperaturePressure(
                fast.MinTemperatureK + ((fast.MaxTemperatureK - fast.MinTemperatureK) * random.NextDouble()),
                fast.MinPressurePa * Math.Pow(fast.MaxPressurePa / fast.MinPressurePa, random.NextDouble())
            );
            var saturated = fast.MinTemperatureK + ((top - fast.MinTemperatureK) * random.NextDouble());
            var line = fluid.SaturationAtTemperature(saturated);
            if (line.PressurePa < fast.MinPressurePa || line.PressurePa > fast.MaxPressurePa)
                continue;
            SaturationTemperatureK[i] = saturated;
            SaturationPressurePa[i] = line.PressurePa;
            SingleTemperatureK[i] = single.TemperatureK;
            SinglePressurePa[i] = single.PressurePa;
            SingleDensity[i] = single.DensityKgPerM3;
            var wet = i % 3 == 0;
            PressurePa[i] = wet ? line.PressurePa : single.PressurePa;
            var share = random.NextDouble();
            EnthalpyJPerKg[i] = wet
                ? line.LiquidEnthalpyJPerKg + (share * line.LatentHeatJPerKg)
                : single.EnthalpyJPerKg;
            EntropyJPerKgK[i] = wet
                ? line.LiquidEntropyJPerKgK + (share * (line.VapourEntropyJPerKgK - line.LiquidEntropyJPerKgK))
                : single.EntropyJPerKgK;
            i++;
        }
    }

    public double[] SaturationTemperatureK { get; } = new double[Count];

    public double[] SaturationPressurePa { get; } = new double[Count];

    public double[] SingleTemperatureK { get; } = new double[Count];

    public double[] SinglePressurePa { get; } = new double[Count];

    public double[] SingleDensity { get; } = new double[Count];

    public double[] PressurePa { get; } = new double[Count];

    public double[] EnthalpyJPerKg { get; } = new double[Count];

    public double[] EntropyJPerKgK { get; } = new double[Count];
}
