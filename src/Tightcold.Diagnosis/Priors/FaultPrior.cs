using Tightcold.Loop.Faults;
using Tightcold.Procedures;

namespace Tightcold.Diagnosis.Priors;

/// <summary>
/// How bad a fault is, from a standard normal coordinate: small ones are commoner than large ones, Beta(1, 2) on the
/// range from “worth mending” to the worst; assumed.
/// </summary>
internal static class FaultPrior
{
    /// <summary>Charge over the label's, and the model's faults, of one point of one explanation.</summary>
    public static (double ChargeShare, LoopFaults Faults) Of(IReadOnlyList<Fault> faults, ReadOnlySpan<double> z)
    {
        var model = LoopFaults.None;
        for (var i = 0; i < faults.Count; i++)
            model = With(model, faults[i], Severity(faults[i], z[i == 0 ? Coordinate.Severity : Coordinate.SecondSeverity]), z[Coordinate.Form]);
        return (ChargeShare(faults, z[Coordinate.Charge]), model);
    }

    /// <summary>Charge over the label's. Charge that is neither short nor over is anywhere from 0.80 to 1.12.</summary>
    public static double ChargeShare(IReadOnlyList<Fault> faults, double z)
    {
        var u = Normal.Cumulative(z);
        if (faults.Contains(Fault.Undercharge)) return faults.Count == 1 ? 0.05 + (0.75 * u) : 0.20 + (0.60 * u);
        return faults.Contains(Fault.Overcharge) ? 1.12 + (0.68 * Beta(u)) : 0.80 + (0.32 * u);
    }

    /// <summary>The fault's own measure: a share lost from 0 to 1, Pa of air, kg of oil, Pa of switch point.</summary>
    public static double Severity(Fault fault, double z)
    {
        var (least, most) = Range(fault);
        return least + ((most - least) * Beta(Normal.Cumulative(z)));
    }

    /// <summary>From “worth mending” to the worst.</summary>
    public static (double Least, double Most) Range(Fault fault) => fault switch
    {
        Fault.AirInside => (0.3e5, 3e5),
        Fault.CondenserAir => (0.30, 0.97),
        Fault.EvaporatorAir => (0.30, 0.90),
        Fault.ValveStuckOpen => (0.30, 1),
        Fault.ValveStuckClosed => (0.45, 0.98),
        Fault.TubePlugged => (0.25, 0.95),
        Fault.LineRestricted => (0.60, 0.96),
        Fault.MoistureIce => (0.40, 0.98),
        Fault.CompressorWorn => (0.18, 1),
        Fault.ClutchSlips => (0.20, 0.85),
        Fault.ControlStuckLow => (0.50, 1),
        Fault.ControlStuckHigh => (0.50, 1),
        Fault.BlendDoorLeaks => (0.08, 0.70),
        Fault.OilExcess => (0.04, 0.25),
        Fault.SwitchMisset => (0.4e5, 1.4e5),
        _ => (0, 1),
    };

    private static LoopFaults With(LoopFaults model, Fault fault, double severity, double form) => fault switch
    {
        Fault.AirInside => model with { AirExcessPa = severity },
        // Two in three are air that does not come (fan, shroud, blocked face), one in three fins that no longer pass heat.
        Fault.CondenserAir => form < 0.43 ? model with { CondenserAirLoss = severity } : model with { CondenserFouling = severity },
        Fault.EvaporatorAir => model with { EvaporatorAirLoss = severity },
        Fault.ValveStuckOpen => model with { ValveStuckOpen = severity },
        Fault.ValveStuckClosed => model with { ValveStuckClosed = severity },
        Fault.TubePlugged => model with { TubePlugged = severity },
        Fault.LineRestricted => model with { LiquidLineRestriction = severity },
        Fault.MoistureIce => model with { MoistureIce = severity },
        Fault.CompressorWorn => model with { CompressorWear = severity },
        Fault.ClutchSlips => model with { ClutchSlip = severity },
        Fault.ClutchDead => model with { ClutchSlip = 1 },
        Fault.ControlStuckLow => model with { ControlStuckLow = severity },
        Fault.ControlStuckHigh => model with { ControlStuckHigh = severity },
        Fault.BlendDoorLeaks => model with { BlendDoorLeak = severity },
        Fault.OilExcess => model with { ExcessOilKg = severity },
        Fault.SwitchMisset => model with { SwitchOffsetPa = form < 0 ? severity : -severity },
        _ => model,
    };

    private static double Beta(double u) => 1 - Math.Sqrt(Math.Max(0, 1 - u));
}
