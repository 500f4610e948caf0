using Tightcold.Loop.Results;

namespace Tightcold.Diagnosis.Measurement;

/// <summary>The numbers that a modelled point leaves behind, in a row of plain doubles; the first seven in the order of
/// <see cref="Channel"/>.</summary>
internal static class Predicted
{
    public const int Duty = 7;
    public const int Cycles = 8;
    public const int GlassQuality = 9;
    public const int EvaporatingK = 10;
    public const int LineStepK = 11;
    public const int SwingPa = 12;
    public const int Off = 13;
    public const int FinK = 14;

    /// <summary>Three numbers to start a like question from; not a number where there is none.</summary>
    public const int Start = 15;
    public const int Width = 18;

    /// <summary>Where the loop was found; null where nothing ran.</summary>
    public static LoopStart? StartOf(ReadOnlySpan<double> row) =>
        double.IsNaN(row[Start]) ? null : new LoopStart(row[Start], row[Start + 1], row[Start + 2]);

    /// <param name="swing">Both ends of the low side's swing were read, not where it stands on average.</param>
    public static void Store(LoopResult result, Span<double> row, bool swing)
    {
        var r = result.Readings!.Value;
        row[(int)Channel.LowSide] = swing ? r.LowSideMinPa : r.LowSidePa;
        row[(int)Channel.LowSwingTop] = r.LowSideMaxPa;
        row[(int)Channel.HighSide] = r.HighSidePa;
        row[(int)Channel.Vent] = r.VentK;
        // A clamp sits somewhere between coil and compressor.
        row[(int)Channel.SuctionLine] = 0.5 * (r.EvaporatorOutK + r.SuctionLineK);
        row[(int)Channel.LiquidLine] = r.LiquidLineK;
        row[(int)Channel.DischargeLine] = r.DischargeLineK;
        row[Duty] = r.Duty;
        row[Cycles] = r.CyclesPerMinute;
        row[GlassQuality] = r.SightGlassQuality;
        row[EvaporatingK] = r.EvaporatingK;
        row[LineStepK] = r.LiquidLineK - r.ThrottleInletK;
        row[SwingPa] = r.LowSideMaxPa - r.LowSideMinPa;
        row[Off] = result.State == LoopState.Off ? 1 : 0;
        row[FinK] = r.FinK;
        var start = result.Start ?? new LoopStart(double.NaN, double.NaN, double.NaN);
        row[Start] = start.LogSuction;
        row[Start + 1] = start.LogDischarge;
        row[Start + 2] = start.OutletEnthalpy;
    }
}
