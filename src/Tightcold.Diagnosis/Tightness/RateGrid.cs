using Tightcold.Diagnosis.Leaks;
using Tightcold.Numerics.Interpolation;

namespace Tightcold.Diagnosis.Tightness;

/// <summary>Rates of a spot at rest, kg/s, log-spaced from 0.03 g/yr to a burst hose's three tonnes a year.</summary>
internal static class RateGrid
{
    public const int Count = 72;
    public const double LeastKgPerS = 0.03 * LeakPrior.GramPerYear,
        MostKgPerS = 3e6 * LeakPrior.GramPerYear;
    public static readonly double StepLog = Math.Log(MostKgPerS / LeastKgPerS) / (Count - 1);
    private static readonly double LogLeast = Math.Log(LeastKgPerS);

    public static readonly double[] Values =
    [
        .. Enumerable.Range(0, Count).Select(i => LeastKgPerS * Math.Exp(i * StepLog)),
    ];

    public static double At(double[] table, double logKgPerS) =>
        StraightLines.At(table, (logKgPerS - LogLeast) / StepLog);

    /// <summary>Where a rate stands between the entries of a table.</summary>
    public static double Place(double kgPerS) => (Math.Log(kgPerS) - LogLeast) / StepLog;

    public static int Nearest(double logKgPerS) =>
        Math.Clamp((int)Math.Round((logKgPerS - LogLeast) / StepLog), 0, Count - 1);
}
