namespace Tightcold.Procedures.Cold;

/// <summary>How the vent came down in time: T(t) = T_end + (T_0 − T_end)·e^(−t/τ), fitted to three readings or
/// more.</summary>
/// <param name="EndK">Where it tends.</param>
/// <param name="TimeConstantS">τ, s.</param>
/// <param name="ResidualK">Root mean square of what the curve leaves over.</param>
/// <param name="Falling">The last reading is colder than the first.</param>
public readonly record struct PullDown(double EndK, double TimeConstantS, double ResidualK, bool Falling)
{
    /// <summary>Null with fewer than three readings at different times: two fix no curve.</summary>
    /// <param name="points">Seconds since the A/C was switched on, and the vent, K.</param>
    public static PullDown? Fit(IReadOnlyList<(double Seconds, double VentK)> points)
    {
        if (points.Count < 3 || points.Select(point => point.Seconds).Distinct().Count() < 3)
            return null;
        PullDown? best = null;
        // Linear least squares in T_end and the step for each τ of a fine geometric grid: 30 s to an hour.
        for (var tau = 30.0; tau <= 3600; tau *= 1.05)
        {
            double n = points.Count,
                sx = 0,
                sy = 0,
                sxx = 0,
                sxy = 0;
            foreach (var (seconds, kelvin) in points)
            {
                var x = Math.Exp(-seconds / tau);
                (sx, sy, sxx, sxy) = (sx + x, sy + kelvin, sxx + x * x, sxy + x * kelvin);
            }
            var spread = n * sxx - sx * sx;
            if (spread < 1e-9)
                continue;
            var step = (n * sxy - sx * sy) / spread;
            var end = (sy - step * sx) / n;
            var residual = Math.Sqrt(
                points.Sum(point => Math.Pow(point.VentK - end - step * Math.Exp(-point.Seconds / tau), 2)) / n
            );
            if (best is null || residual < best.Value.ResidualK)
                best = new(
                    end,
                    tau,
                    residual,
                    points.MaxBy(point => point.Seconds).VentK < points.MinBy(point => point.Seconds).VentK
                );
        }
        return best;
    }
}
