using Tightcold.Loop.Faults;
using Tightcold.Numerics.Distributions;

namespace Tightcold.Diagnosis.Priors;

/// <summary>
/// How bad a fault is, from a standard normal coordinate. What wears or silts up slowly is commoner small than large,
/// Beta(1, 2) on the range from “worth mending” to the worst; what sticks, breaks or closes is as often gross: even,
/// and for throttles and lines even in the logarithm of the area that is left. Assumed.
/// </summary>
internal static class FaultPrior
{
    /// <summary>Charge over the label's, and the model's faults, of one point of one explanation.</summary>
    public static (double ChargeShare, LoopFaults Faults) Of(
        IReadOnlyList<Fault> faults,
        ReadOnlySpan<double> z,
        bool hidden = false
    )
    {
        var model = LoopFaults.None;
        for (var i = 0; i < faults.Count; i++)
            model = With(
                model,
                faults[i],
                Severity(faults[i], z[i == 0 ? Coordinate.Severity : Coordinate.SecondSeverity]),
                z[Coordinate.Form]
            );
        return (ChargeShare(faults, z[Coordinate.Charge], hidden), model);
    }

    // A sound car may lack charge that its receiver or accumulator covers: one in four, down to where it must show.
    // Assumed.
    private const double HiddenShare = 0.25,
        LeastHidden = 0.35;

    // A circuit loses its last tenth quickly: few are met just then with the compressor still running. Assumed.
    private const double SeldomNearlyEmpty = 0.75;

    /// <summary>Charge over the label's. Charge that is neither short nor over is anywhere from 0.80 to 1.12.</summary>
    /// <param name="hidden">Whether a shortage that does not show counts as sound: as long as no scale spoke.</param>
    public static double ChargeShare(IReadOnlyList<Fault> faults, double z, bool hidden = false)
    {
        var u = Normal.Cumulative(z);
        if (faults.Contains(Fault.Undercharge))
            return faults.Count == 1 ? 0.05 + (0.75 * Math.Pow(u, SeldomNearlyEmpty)) : 0.20 + (0.60 * u);
        if (faults.Contains(Fault.Overcharge))
            return 1.12 + (0.68 * u);
        if (!hidden || faults.Count > 0)
            return 0.80 + (0.32 * u);
        return u < HiddenShare
            ? LeastHidden + ((0.80 - LeastHidden) * u / HiddenShare)
            : 0.80 + (0.32 * (u - HiddenShare) / (1 - HiddenShare));
    }

    /// <summary>The fault's own measure: a share lost from 0 to 1, Pa of air, kg of oil, Pa of switch point.</summary>
    public static double Severity(Fault fault, double z)
    {
        var (least, most) = Range(fault);
        var u = Normal.Cumulative(z);
        return fault switch
        {
            Fault.ValveStuckClosed or Fault.TubePlugged or Fault.LineRestricted or Fault.MoistureIce => 1
                - ((1 - least) * Math.Pow((1 - most) / (1 - least), u)),
            Fault.CondenserAir
            or Fault.ValveStuckOpen
            or Fault.CompressorWorn
            or Fault.ControlStuckLow
            or Fault.ControlNotAsked
            or Fault.ControlStuckHigh
            or Fault.TubeOversized
            or Fault.BlendDoorLeaks
            or Fault.AirInside => least + ((most - least) * u),
            _ => least + ((most - least) * Beta(u)),
        };
    }

    /// <summary>From “worth mending” to the worst.</summary>
    public static (double Least, double Most) Range(Fault fault) =>
        fault switch
        {
            Fault.AirInside => (0.5e5, 3.5e5),
            Fault.CondenserAir => (0.40, 0.98),
            Fault.EvaporatorAir => (0.35, 0.92),
            Fault.ValveStuckOpen => (0.40, 1),
            Fault.ValveStuckClosed => (0.55, 0.995),
            Fault.TubePlugged => (0.35, 0.985),
            Fault.LineRestricted => (0.75, 0.99),
            Fault.MoistureIce => (0.60, 0.995),
            Fault.CompressorWorn => (0.30, 1),
            Fault.ClutchSlips => (0.25, 0.85),
            Fault.ControlStuckLow or Fault.ControlNotAsked => (0.50, 1),
            Fault.ControlStuckHigh => (0.50, 1),
            Fault.BlendDoorLeaks => (0.10, 0.70),
            Fault.OilExcess => (0.06, 0.25),
            Fault.SwitchMisset => (0.4e5, 1.4e5),
            Fault.TubeOversized => (0.20, 1),
            _ => (0, 1),
        };

    /// <summary>The same car with its throttle iced up; null where no water is in it.</summary>
    public static LoopFaults? Iced(IReadOnlyList<Fault> faults, LoopFaults clear, ReadOnlySpan<double> z)
    {
        for (var i = 0; i < faults.Count; i++)
            if (faults[i] == Fault.MoistureIce)
                return clear with
                {
                    ThrottleIced = Severity(
                        Fault.MoistureIce,
                        z[i == 0 ? Coordinate.Severity : Coordinate.SecondSeverity]
                    ),
                };
        return null;
    }

    private static LoopFaults With(LoopFaults model, Fault fault, double severity, double form) =>
        fault switch
        {
            Fault.AirInside => model with { AirExcessPa = severity },
            // One in two is the fan, one in four a face blocked outside, one in four fins or tubes that no longer pass
            // heat.
            Fault.CondenserAir => form < 0 ? model with { CondenserFanLoss = severity }
            : form < 0.67 ? model with { CondenserAirLoss = severity }
            : model with { CondenserFouling = severity },
            Fault.EvaporatorAir => model with { EvaporatorAirLoss = severity },
            Fault.ValveStuckOpen => model with { ValveStuckOpen = severity },
            Fault.ValveStuckClosed => model with { ValveStuckClosed = severity },
            Fault.TubePlugged => model with { TubePlugged = severity },
            Fault.LineRestricted => model with { LiquidLineRestriction = severity },
            // Clear between its attacks; see Iced.
            Fault.MoistureIce => model,
            Fault.CompressorWorn => model with { CompressorWear = severity },
            Fault.ClutchSlips => model with { ClutchSlip = severity },
            Fault.ClutchDead or Fault.NoVoltage => model with { ClutchSlip = 1 },
            Fault.TubeOversized => model with { TubeOversize = severity },
            Fault.ControlStuckLow or Fault.ControlNotAsked => model with { ControlStuckLow = severity },
            Fault.ControlStuckHigh => model with { ControlStuckHigh = severity },
            Fault.BlendDoorLeaks => model with { BlendDoorLeak = severity },
            Fault.OilExcess => model with { ExcessOilKg = severity },
            Fault.SwitchMisset => model with { SwitchOffsetPa = form < 0 ? severity : -severity },
            _ => model,
        };

    private static double Beta(double u) => 1 - Math.Sqrt(Math.Max(0, 1 - u));
}
