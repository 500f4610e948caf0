namespace Tightcold.Loop.Solving;

/// <summary>Where the unknowns may lie.</summary>
internal struct LoopBox
{
    public double MinLogSuction, MaxLogSuction, MinLogDischarge, MaxLogDischarge;

    // The evaporator cannot be warmer than the air it is to cool; this much under it no duty is left.
    private const double LeastDifferenceK = 0.05;

    public static LoopBox Of(in LoopCase c)
    {
        var warmest = Math.Log(c.Table.SaturationPressurePa(c.Coil.AirInK - LeastDifferenceK));
        return new LoopBox
        {
            MinLogSuction = c.Table.MinLogPressure + 1e-6,
            MaxLogSuction = Math.Min(warmest, c.Table.MaxLogPressure - 0.3),
            MinLogDischarge = c.Table.MinLogPressure + 0.5,
            MaxLogDischarge = c.Table.MaxLogPressure - 1e-9,
        };
    }

    public readonly bool Holds(double logSuction, double logDischarge) =>
        logSuction >= MinLogSuction && logSuction <= MaxLogSuction && logDischarge >= MinLogDischarge && logDischarge <= MaxLogDischarge;
}
