namespace Tightcold.Procedures.Vacuum;

/// <summary>The rise after the pump was shut off, corrected for a change of temperature.</summary>
/// <param name="SlopePaPerS">Rise of the pressure as if the temperature had stayed; least squares.</param>
/// <param name="SlopeSigmaPaPerS">Its standard deviation from the gauge's scatter and an unknown drift.</param>
/// <param name="EarlySlopePaPerS">Slope of the first half, NaN-free: equals the whole when fewer than four readings.</param>
/// <param name="LateSlopePaPerS">Slope of the second half.</param>
/// <param name="LateSlopeSigmaPaPerS">Its standard deviation.</param>
/// <param name="TemperatureKnown">Whether every reading carried its temperature.</param>
public readonly record struct RiseTest(
    double SlopePaPerS, double SlopeSigmaPaPerS, double EarlySlopePaPerS, double LateSlopePaPerS, double LateSlopeSigmaPaPerS, bool TemperatureKnown)
{
    /// <summary>Without temperatures the parts may have warmed or cooled by this much over the hold, K; assumed.</summary>
    public const double UnknownDriftK = 3;

    /// <summary>Analyses at least two readings in the order of time.</summary>
    /// <remarks>
    /// Gas at constant volume follows p/T, so each reading is brought to the first one's temperature by T₀/T. That
    /// is tiny at deep vacuum (0.34 %/K); water left inside moves with its vapour pressure instead (about 6 %/K),
    /// which this correction does not and must not hide.
    /// </remarks>
    public static RiseTest Of(ReadOnlySpan<VacuumReading> readings)
    {
        if (readings.Length < 2) throw new ArgumentOutOfRangeException(nameof(readings), readings.Length, "a rise needs at least two readings");
        var span = readings[^1].SecondsSinceStart - readings[0].SecondsSinceStart;
        if (!(span > 0)) throw new ArgumentOutOfRangeException(nameof(readings), span, "the readings must lie apart in time");
        var known = true;
        foreach (var reading in readings) known &= reading.TemperatureK is not null;
        var corrected = new double[readings.Length];
        for (var i = 0; i < readings.Length; i++)
            corrected[i] = readings[i].PressurePa * (known ? readings[0].TemperatureK!.Value / readings[i].TemperatureK!.Value : 1);

        var (slope, sigma) = Fit(readings, corrected, 0, readings.Length);
        var drift = known ? 0 : readings[0].PressurePa * UnknownDriftK / 300 / span;
        sigma = Math.Sqrt(sigma * sigma + drift * drift);
        if (readings.Length < 4) return new(slope, sigma, slope, slope, sigma, known);
        var half = readings.Length / 2;
        var (late, lateSigma) = Fit(readings, corrected, half, readings.Length - half);
        return new(slope, sigma, Fit(readings, corrected, 0, half + 1).Slope, late, Math.Sqrt(lateSigma * lateSigma + drift * drift), known);
    }

    /// <summary>A rise that is there, and bends: the second half is much flatter than the first.</summary>
    public bool LevelsOff => IsRising && LateSlopePaPerS < 0.4 * EarlySlopePaPerS;

    /// <summary>More than three standard deviations above no rise at all.</summary>
    public bool IsRising => SlopePaPerS > 3 * SlopeSigmaPaPerS;

    /// <summary>The steepest steady rise that these readings leave possible, Pa/s: what is seen and three standard
    /// deviations. Where the rise levels off only its flat end can be a leak, for a leak does not tire.</summary>
    public double LargestSteadyPaPerS => LevelsOff
        ? Math.Max(0, LateSlopePaPerS) + 3 * LateSlopeSigmaPaPerS
        : Math.Max(0, SlopePaPerS) + 3 * SlopeSigmaPaPerS;

    /// <summary>Straight line by least squares with equal weights; the slope's variance is σ²/Σ(t − t̄)².</summary>
    private static (double Slope, double Sigma) Fit(ReadOnlySpan<VacuumReading> readings, double[] pressures, int from, int count)
    {
        double meanTime = 0, meanPressure = 0;
        for (var i = from; i < from + count; i++)
        {
            meanTime += readings[i].SecondsSinceStart / count;
            meanPressure += pressures[i] / count;
        }
        double timeSquares = 0, product = 0, variance = 0;
        for (var i = from; i < from + count; i++)
        {
            var dt = readings[i].SecondsSinceStart - meanTime;
            timeSquares += dt * dt;
            product += dt * (pressures[i] - meanPressure);
            variance += readings[i].RepeatSigmaPa * readings[i].RepeatSigmaPa / count;
        }
        return (product / timeSquares, Math.Sqrt(variance / timeSquares));
    }
}
