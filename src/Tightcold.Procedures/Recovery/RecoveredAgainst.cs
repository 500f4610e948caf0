namespace Tightcold.Procedures.Recovery;

/// <summary>What came out against what was thought to be in: both are beliefs.</summary>
/// <param name="DifferenceKg">Recovered minus thought.</param>
/// <param name="SigmaKg">Of the difference.</param>
public readonly record struct RecoveredAgainst(double DifferenceKg, double SigmaKg)
{
    /// <summary>In standard deviations; the sign as the difference.</summary>
    public double Z => DifferenceKg / Math.Max(SigmaKg, 1e-6);

    /// <summary>The two contradict each other: less than one chance in twenty otherwise.</summary>
    public bool Contradict => Math.Abs(Z) > 1.96;

    /// <param name="recoveredKg">By the scale.</param>
    /// <param name="recoveredSigmaKg">Of that, the oil that came along included.</param>
    /// <param name="thoughtKg">From the standing pressure.</param>
    /// <param name="thoughtSigmaKg">Of that.</param>
    /// <param name="leftKg">Still inside at the end of the recovery.</param>
    public static RecoveredAgainst Of(
        double recoveredKg,
        double recoveredSigmaKg,
        double thoughtKg,
        double thoughtSigmaKg,
        double leftKg
    ) =>
        double.IsFinite(recoveredKg) && double.IsFinite(thoughtKg) && recoveredSigmaKg >= 0 && thoughtSigmaKg >= 0
            ? new(
                recoveredKg + leftKg - thoughtKg,
                Math.Sqrt(recoveredSigmaKg * recoveredSigmaKg + thoughtSigmaKg * thoughtSigmaKg)
            )
            : throw new ArgumentOutOfRangeException(nameof(recoveredKg), recoveredKg, "finite masses are needed");
}
