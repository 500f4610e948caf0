using Tightcold.Loop.Compressor;
using Tightcold.Loop.Designs;
using Tightcold.Loop.Refrigerant;
using Tightcold.Numerics.Roots;

namespace Tightcold.Loop.Solving;

/// <summary>
/// Where Newton begins when nothing nearer is known: the evaporating temperature at which the compressor takes the heat
/// that the coil gives, and the condensing temperature that rejects it. A twentieth of a solve, and most of its luck.
/// </summary>
internal static class Starts
{
    public const int Count = 3;

    private const double FirstLiftK = 14;
    private const double WorkShare = 1.25;
    private const int Halvings = 9;
    private const double ColdestK = 215;
    private const double LeastDifferenceK = 1;

    public static void Get(
        in LoopCase c,
        in LoopBox box,
        int attempt,
        out double logSuction,
        out double logDischarge,
        out double h1
    )
    {
        var condensingK = c.CondenserAirK + FirstLiftK;
        logDischarge = Discharge(c, box, condensingK);
        logSuction = Suction(c, box, logDischarge, out var duty);
        // A circuit short of charge or throttled rejects less and boils colder; an overfull one the other way.
        var lift = attempt switch
        {
            1 => 0.5,
            2 => 1.6,
            _ => 1,
        };
        logDischarge = Discharge(c, box, c.CondenserAirK + (lift * ((WorkShare * duty / c.CondensingG) + 1)));
        logSuction = Suction(c, box, logDischarge, out _);
        if (attempt == 1)
            logSuction -= 0.5;
        logSuction = Math.Clamp(logSuction, box.MinLogSuction + 0.1, box.MaxLogSuction - 0.05);
        c.Table.Row(logSuction, out var row);
        var room = Math.Max(c.Coil.AirInK - row.TemperatureK, 1);
        h1 =
            attempt == 2 || (attempt == 0 && c.Expansion == ExpansionKind.OrificeTube)
                ? row.LiquidEnthalpy + (0.96 * row.Latent)
                : row.SuperheatedEnthalpy(attempt == 1 ? 0.7 * room : Math.Min(6.5, 0.6 * room));
    }

    private static double Discharge(in LoopCase c, in LoopBox box, double condensingK) =>
        Math.Clamp(
            Math.Log(c.Table.SaturationPressurePa(Math.Min(condensingK, c.Table.CriticalTemperatureK - 6))),
            box.MinLogDischarge,
            box.MaxLogDischarge
        );

    private static double Suction(in LoopCase c, in LoopBox box, double logDischarge, out double duty)
    {
        c.Table.Row(logDischarge, out var high);
        var takes = new TakesMore(c, high);
        var (low, top) = Halving.Narrow(
            ref takes,
            Math.Log(c.Table.SaturationPressurePa(ColdestK)),
            Math.Min(Math.Log(c.Table.SaturationPressurePa(c.Coil.AirInK - LeastDifferenceK)), box.MaxLogSuction),
            Halvings
        );
        duty = takes.Duty;
        return 0.5 * (low + top);
    }

    /// <summary>Does the compressor take more heat than the coil gives? A start needs no more than the
    /// neighbourhood.</summary>
    private struct TakesMore(LoopCase c, SaturationRow high) : IQuestion
    {
        /// <summary>What the coil gave when last asked, W.</summary>
        public double Duty { get; private set; }

        public bool Says(double x)
        {
            c.Table.Row(x, out var row);
            var stroke =
                c.Kind == CompressorKind.Variable
                    ? CapacityControl.Stroke(c, row.PressurePa, high.PressurePa + c.AirPa)
                    : 1;
            var rpm = c.Kind == CompressorKind.Electric ? CapacityControl.ElectricRpm(c, row.TemperatureK) : c.Rpm;
            var volumetric = c.Compressor.Volumetric(
                Math.Log((high.PressurePa + c.AirPa) / row.PressurePa),
                rpm,
                stroke
            );
            var flow = volumetric * c.DisplacementM3 * stroke * rpm / 60 * row.VapourDensity;
            var taken = flow * (row.VapourEnthalpy - high.LiquidEnthalpy);
            Duty = c.Coil.FullFaceDuty(row.TemperatureK);
            return taken > Duty;
        }
    }
}
