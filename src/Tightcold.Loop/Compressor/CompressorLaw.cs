namespace Tightcold.Loop.Compressor;

/// <summary>
/// Efficiencies of a reciprocating or scroll compressor: the clearance-volume law for what it draws in, a parabola for
/// the work. Shape from the textbooks of refrigeration, constants assumed (docs/physics/loop.md).
/// </summary>
internal struct CompressorLaw
{
    // Loss of isentropic efficiency when the speed is twice, or next to none of, the best.
    private const double SpeedLoss = 0.04;
    private const double BestPressureRatio = 4;
    private const double RatioLoss = 0.006;

    public double VolumetricScale;
    public double VolumetricBase;
    public double VolumetricSpeedLoss;
    public double ClearanceShare;
    public double InverseClearanceExponent;
    public double IsentropicBest;
    public double IsentropicScale;
    public double BestRpm;

    /// <summary>Volumetric efficiency; goes over to nought smoothly where the clearance gas fills the
    /// cylinder.</summary>
    public readonly double Volumetric(double logRatio, double rpm, double stroke)
    {
        var speed = rpm / BestRpm;
        var law =
            VolumetricBase
            - (ClearanceShare * (Math.Exp(logRatio * InverseClearanceExponent) - 1))
            - (VolumetricSpeedLoss * speed / (1 + (0.4 * speed)));
        // Rounded to a floor just above nought: 0.5 (y + sqrt(y2 + w2)).
        const double width = 0.05;
        return VolumetricScale * (1 - (0.15 * (1 - stroke))) * 0.5 * (law + Math.Sqrt((law * law) + (width * width)));
    }

    /// <summary>Isentropic efficiency, 0.25 to 0.75.</summary>
    public readonly double Isentropic(double ratio, double rpm)
    {
        var speed = (rpm - BestRpm) / BestRpm;
        var off = ratio - BestPressureRatio;
        // The parabola's wings are turned into an even decline, so that no clamp makes a corner.
        var wing = off * off / (1 + (0.02 * off * off));
        return Math.Max(0.1, IsentropicScale * (IsentropicBest - (RatioLoss * wing) - (SpeedLoss * speed * speed)));
    }
}
