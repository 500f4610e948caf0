using CsCheck;

namespace Tightcold.Properties.Tests.Laws;

/// <summary>Random states over a fluid's working range, and the fluids to take them from.</summary>
internal static class Points
{
    public static Gen<(double T, double P)> TemperaturePressure(Fluid fluid)
    {
        var fast = fluid.Fast;
        return Gen.Select(
            Gen.Double[fast.MinTemperatureK, fast.MaxTemperatureK],
            Gen.Double[Math.Log(fast.MinPressurePa), Math.Log(fast.MaxPressurePa)],
            (t, logP) => (t, Math.Exp(logP))
        );
    }

    /// <summary>Temperatures on the saturation line, up to a hair below the critical point.</summary>
    public static Gen<double> Saturation(Fluid fluid, double upTo = 0.9999) =>
        Gen.Double[fluid.MinTemperatureK, upTo * fluid.CriticalTemperatureK];
}
