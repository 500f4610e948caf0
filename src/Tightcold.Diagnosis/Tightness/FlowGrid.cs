using Tightcold.Numerics.Interpolation;

namespace Tightcold.Diagnosis.Tightness;

/// <summary>Rates of change V·dp/dt over V, Pa/s, that a test's likelihood is tabled on; entry 0 stands for no
/// hole.</summary>
internal static class FlowGrid
{
    public const int Count = 82;
    private const double LogLeast = -11.512925464970229,
        LogMost = 6.907755278982137;
    private const double Step = (LogMost - LogLeast) / (Count - 2);

    /// <summary>From where a table is level down to no hole at all, and up from where.</summary>
    public static readonly double LeastPaPerS = Math.Exp(LogLeast - Step),
        MostPaPerS = Math.Exp(LogMost);

    /// <summary>Pa/s; 1e-5 to 1e3, and 0 first.</summary>
    public static readonly double[] Values =
    [
        0,
        .. Enumerable.Range(0, Count - 1).Select(i => Math.Exp(LogLeast + i * Step)),
    ];

    /// <summary>A value between the entries of a table, straight in ln(rate).</summary>
    public static double At(double[] table, double logPaPerS) =>
        StraightLines.At(table, 1 + ((logPaPerS - LogLeast) / Step));
}
