namespace Tightcold.Loop;

/// <summary>The stated range of the loop model. Outside it <see cref="LoopModel"/> refuses, naming the input.</summary>
public static class LoopLimits
{
    public const double MinAmbientK = 278.15;
    public const double MaxAmbientK = 325.15;
    public const double MinBarometricPa = 60e3;
    public const double MaxBarometricPa = 110e3;
    public const double MinEngineRpm = 500;
    public const double MaxEngineRpm = 5000;
    public const double MinCondenserFaceMPerS = 0.3;
    public const double MaxCondenserFaceMPerS = 10;
    public const double MaxReentryK = 25;
    public const double MinBlowerShare = 0.15;
    public const double MinCabinK = 278.15;
    public const double MaxCabinK = 340.15;

    /// <summary>Least charge, share of the label's.</summary>
    public const double MinChargeShare = 0.02;

    /// <summary>Most charge, share of the label's.</summary>
    public const double MaxChargeShare = 2.0;

    public const double MaxAirExcessPa = 6e5;
    public const double MaxExcessOilKg = 0.3;
    public const double MaxSwitchOffsetPa = 1.5e5;

    /// <summary>Where a severity from 0 to 1 stops being a fault and becomes no flow at all.</summary>
    public const double MaxLoss = 1.0;
}
