namespace Tightcold.Diagnosis.Tightness;

/// <summary>What one hold or pressure test says of the rate V·dp/dt over V.</summary>
/// <param name="Log">ln L on <see cref="FlowGrid"/>, entry 0 without a hole, with room for a test gone wrong.</param>
/// <param name="Raw">The same as the readings alone say it.</param>
/// <param name="ByWater">For a hold: ln L, a row for each entry of <see cref="WaterGrid"/>; else null.</param>
/// <param name="FloorPaPerS">Rate that it would have shown half the time.</param>
/// <param name="Shows">Odds of a leak that shows, from even odds.</param>
/// <param name="Flat">Nothing moved beyond the gauge: the test can only speak well.</param>
internal sealed record TestTable(
    double[] Log, double[] Raw, double[][]? ByWater, double FloorPaPerS, double Shows, bool Flat, TestQuality Quality)
{
    /// <summary>Odds of a leak that shows, from even odds, over leaks log-uniform on the grid.</summary>
    public static double ShowsLeak(double[] log)
    {
        var top = log.Max();
        var sum = 0.0;
        for (var q = 1; q < log.Length; q++) sum += Math.Exp(log[q] - top);
        sum /= log.Length - 1;
        return sum / (sum + Math.Exp(log[0] - top));
    }

    /// <summary>Robust: with a small chance the test was not what it is written to be (a valve not shut, a hose
    /// moved).</summary>
    public static void Cap(double[] log, double outlier)
    {
        var top = log.Max();
        for (var q = 0; q < log.Length; q++) log[q] = top + Math.Log(Math.Exp(log[q] - top) + outlier);
    }

    /// <summary>Keeps the table from speaking for any leak more than <paramref name="other"/> does.</summary>
    public static void NoMoreThan(double[] log, double[] other)
    {
        for (var q = 1; q < log.Length; q++) log[q] = log[0] + Math.Min(log[q] - log[0], other[q] - other[0]);
    }
}
