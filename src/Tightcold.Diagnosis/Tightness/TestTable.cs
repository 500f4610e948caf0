namespace Tightcold.Diagnosis.Tightness;

/// <summary>What one hold or pressure test says of the rate V·dp/dt over V.</summary>
/// <param name="Log">ln L on <see cref="FlowGrid"/>, entry 0 without a hole, with room for a test gone wrong.</param>
/// <param name="Raw">The same as the readings alone say it.</param>
/// <param name="ByWater">For a hold: ln L, a row for each entry of <see cref="WaterGrid"/>; else null.</param>
/// <param name="FloorPaPerS">Rate that it would have shown half the time.</param>
/// <param name="Shows">Odds of a leak that shows, from even odds.</param>
/// <param name="Flat">Nothing moved beyond the gauge: the test can only speak well.</param>
internal sealed record TestTable(
    double[] Log,
    double[] Raw,
    double[][]? ByWater,
    double FloorPaPerS,
    double Shows,
    bool Flat,
    TestQuality Quality
)
{
    /// <summary>Odds of a leak that shows, from even odds, over leaks log-uniform on the grid.</summary>
    public static double ShowsLeak(double[] log)
    {
        var top = log.Max();
        var sum = 0.0;
        for (var q = 1; q < log.Length; q++)
            sum += Math.Exp(log[q] - top);
        sum /= log.Length - 1;
        return sum / (sum + Math.Exp(log[0] - top));
    }

    /// <summary>
    /// Robust: a test may not be what it is written to be. Towards larger leaks a valve was shut or a gauge stood still
    /// (<paramref name="blind"/>); towards smaller ones something else moved the gauge (<paramref name="moved"/>).
    /// </summary>
    public static void Cap(double[] log, double blind, double moved)
    {
        var peak = 0;
        for (var q = 1; q < log.Length; q++)
            if (log[q] > log[peak])
                peak = q;
        var top = log[peak];
        for (var q = 0; q < log.Length; q++)
            log[q] = top + Math.Log(Math.Exp(log[q] - top) + (q < peak ? moved : blind));
    }

    /// <summary>Keeps the table from favouring a larger leak over a smaller one more than <paramref name="other"/>
    /// does: their difference never rises with the rate.</summary>
    public static void NoMoreThan(double[] log, double[] other)
    {
        var least = log[0] - other[0];
        for (var q = 1; q < log.Length; q++)
        {
            least = Math.Min(least, log[q] - other[q]);
            log[q] = other[q] + least;
        }
    }

    /// <summary>The rate at which <paramref name="shows"/>, which rises with the rate, first reaches the odds from
    /// which such a test counts as failed.</summary>
    public static double Floor(double failedFrom, Func<double, double> shows)
    {
        // A search over whole entries, not over a line.
        int low = 0,
            high = FlowGrid.Count - 1;
        while (high - low > 1)
        {
            var middle = (low + high) / 2;
            if (shows(FlowGrid.Values[middle]) >= failedFrom)
                high = middle;
            else
                low = middle;
        }
        return FlowGrid.Values[high];
    }
}
