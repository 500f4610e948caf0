using System.Runtime.CompilerServices;
using Tightcold.Loop.Designs;
using Tightcold.Loop.Faults;

namespace Tightcold.Loop;

/// <summary>The public wall of the model: what passes is finite and in the stated range.</summary>
internal static class InputCheck
{
    public static void All(LoopDesign design, LoopConditions c, double chargeKg, LoopFaults f)
    {
        ArgumentNullException.ThrowIfNull(c);
        ArgumentNullException.ThrowIfNull(f);
        Within(c.AmbientK, LoopLimits.MinAmbientK, LoopLimits.MaxAmbientK);
        Within(c.RelativeHumidity, 0, 1);
        Within(c.BarometricPa, LoopLimits.MinBarometricPa, LoopLimits.MaxBarometricPa);
        Within(c.EngineRpm, LoopLimits.MinEngineRpm, LoopLimits.MaxEngineRpm);
        Within(c.CondenserFaceMPerS, LoopLimits.MinCondenserFaceMPerS, LoopLimits.MaxCondenserFaceMPerS);
        Within(c.AidFaceMPerS, 0, LoopLimits.MaxCondenserFaceMPerS);
        Within(c.ReentryK, 0, LoopLimits.MaxReentryK);
        Within(c.BlowerShare, LoopLimits.MinBlowerShare, 1);
        Within(c.FreshShare, 0, 1);
        Within(c.CabinK, LoopLimits.MinCabinK, LoopLimits.MaxCabinK);
        Within(c.CabinRelativeHumidity, 0, 1);
        Within(c.HeaterK, 273.15, 383.15);
        Within(
            chargeKg,
            LoopLimits.MinChargeShare * design.LabelChargeKg,
            LoopLimits.MaxChargeShare * design.LabelChargeKg
        );
        Within(f.AirExcessPa, 0, LoopLimits.MaxAirExcessPa);
        Within(f.ExcessOilKg, 0, LoopLimits.MaxExcessOilKg);
        Within(f.SwitchOffsetPa, -LoopLimits.MaxSwitchOffsetPa, LoopLimits.MaxSwitchOffsetPa);
        Severity(f.CondenserAirLoss);
        Severity(f.CondenserFanLoss);
        Severity(f.CondenserFouling);
        Severity(f.EvaporatorAirLoss);
        Severity(f.ValveStuckOpen);
        Severity(f.ValveStuckClosed);
        Severity(f.TubePlugged);
        Severity(f.TubeOversize);
        Severity(f.ThrottleIced);
        Severity(f.LiquidLineRestriction);
        Severity(f.MoistureIce);
        Severity(f.CompressorWear);
        Severity(f.ClutchSlip);
        Severity(f.ControlStuckLow);
        Severity(f.ControlStuckHigh);
        Severity(f.BlendDoorLeak);
    }

    private static void Severity(double value, [CallerArgumentExpression(nameof(value))] string name = "") =>
        Within(value, 0, LoopLimits.MaxLoss, name);

    private static void Within(
        double value,
        double least,
        double most,
        [CallerArgumentExpression(nameof(value))] string name = ""
    )
    {
        if (!(value >= least && value <= most))
            throw new ArgumentOutOfRangeException(
                name,
                value,
                FormattableString.Invariant($"{name} must lie from {least} to {most}.")
            );
    }
}
