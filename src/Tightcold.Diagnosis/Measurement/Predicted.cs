using Tightcold.Loop.Results;

namespace Tightcold.Diagnosis.Measurement;

/// <summary>The numbers that a modelled point leaves behind, in a row of plain doubles; the first nine in the order of
/// <see cref="Channel"/>.</summary>
internal static class Predicted
{
    public const int Duty = 9;
    public const int Cycles = 10;
    public const int GlassQuality = 11;
    public const int EvaporatingK = 12;
    public const int SwingPa = 13;
    public const int Off = 14;
    public const int FinK = 15;
    public const int StoreLevel = 16;
    public const int SuperheatK = 17;

    /// <summary>Air in the circuit, Pa at rest.</summary>
    public const int AirPa = 18;

    /// <summary>1 for an orifice tube.</summary>
    public const int Tube = 19;

    /// <summary>Three numbers to start a like question from; not a number where there is none.</summary>
    public const int Start = 20;
    public const int Width = 23;

    /// <summary>Where the loop was found; null where nothing ran.</summary>
    public static LoopStart? StartOf(ReadOnlySpan<double> row) =>
        double.IsNaN(row[Start]) ? null : new LoopStart(row[Start], row[Start + 1], row[Start + 2]);

    /// <param name="point">How it was run and read: both ends of a swing, or where the needle stands while it
    /// runs.</param>
    public static void Store(LoopResult result, OperatingPoint point, Span<double> row)
    {
        var r = result.Readings!.Value;
        row[(int)Channel.LowSide] = point.SwingRead ? r.LowSideMinPa : r.LowSideRunningPa;
        row[(int)Channel.LowSwingTop] = r.LowSideMaxPa;
        row[(int)Channel.HighSide] = point.HighSwingRead ? r.HighSideMinPa : r.HighSideRunningPa;
        row[(int)Channel.HighSwingTop] = r.HighSideMaxPa;
        row[(int)Channel.LineStep] = r.LiquidLineK - r.ThrottleInletK;
        row[StoreLevel] = r.StoreLevel;
        row[SuperheatK] = r.SuperheatK;
        row[(int)Channel.Vent] = r.VentK + Unsettled(point);
        // A clamp sits somewhere between coil and compressor.
        row[(int)Channel.SuctionLine] = 0.5 * (r.EvaporatorOutK + r.SuctionLineK);
        row[(int)Channel.LiquidLine] = r.LiquidLineK;
        row[(int)Channel.DischargeLine] = r.DischargeLineK;
        row[Duty] = r.Duty;
        row[Cycles] = r.CyclesPerMinute;
        row[GlassQuality] = r.SightGlassQuality;
        row[EvaporatingK] = r.EvaporatingK;
        row[SwingPa] = r.LowSideMaxPa - r.LowSideMinPa;
        row[Off] = result.State == LoopState.Off ? 1 : 0;
        row[FinK] = r.FinK;
        var start = result.Start ?? new LoopStart(double.NaN, double.NaN, double.NaN);
        row[Start] = start.LogSuction;
        row[Start + 1] = start.LogDischarge;
        row[Start + 2] = start.OutletEnthalpy;
    }

    // A vent begins warm and comes down with some three minutes' time constant; common practice.
    private const double FirstWarmK = 6,
        SettlesMinutes = 3;

    private static double Unsettled(OperatingPoint point) =>
        point.MinutesRunning is { } minutes ? FirstWarmK * Math.Exp(-Math.Max(0, minutes) / SettlesMinutes) : 0;
}
