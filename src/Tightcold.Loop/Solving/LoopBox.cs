namespace Tightcold.Loop.Solving;

/// <summary>Where the unknowns may lie.</summary>
internal struct LoopBox
{
    public double MinLogSuction,
        MaxLogSuction,
        MinLogDischarge,
        MaxLogDischarge;

    // A compressor that hardly pumps leaves the evaporator as warm as the warmer of the two airs, or a little above.
    private const double WarmestAboveAirK = 10;

    // No steady state is wanted beyond the high-pressure switch; a little room behind it lets the answer fade over.
    private const double BeyondSwitchPa = 1.2e5;
    private const double LeastTopPa = 2e5;

    public static LoopBox Of(in LoopCase c)
    {
        var warmest = Math.Log(
            c.Table.SaturationPressurePa(Math.Max(c.Coil.AirInK, c.CondenserAirK) + WarmestAboveAirK)
        );
        return new LoopBox
        {
            MinLogSuction = c.Table.MinLogPressure + 1e-6,
            MaxLogSuction = Math.Min(warmest, c.Table.MaxLogPressure - 0.05),
            MinLogDischarge = c.Table.MinLogPressure + 0.01,
            MaxLogDischarge = Math.Min(
                Math.Log(Math.Max(c.Design.HighSwitchOffPa + BeyondSwitchPa - c.AirPa, LeastTopPa)),
                c.Table.MaxLogPressure - 1e-9
            ),
        };
    }

    public readonly bool Holds(double logSuction, double logDischarge) =>
        logSuction >= MinLogSuction
        && logSuction <= MaxLogSuction
        && logDischarge >= MinLogDischarge
        && logDischarge <= MaxLogDischarge;
}
