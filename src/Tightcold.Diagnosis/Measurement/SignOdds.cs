using Tightcold.Diagnosis.Priors;
using Tightcold.Loop.Faults;

namespace Tightcold.Diagnosis.Measurement;

/// <summary>
/// How likely a sign is for a car: from its modelled state where the model has it, else stated odds from trade teaching
/// (docs/physics/diagnosis.md has the table). Within a group the odds of all outcomes sum to 1, and none is ever
/// nought: people look wrong, and feel wrong more often.
/// </summary>
internal static class SignOdds
{
    /// <summary>Odds of a sign for a car.</summary>
    /// <param name="sign">What was found.</param>
    /// <param name="faults">The explanation's faults.</param>
    /// <param name="car">How bad they are.</param>
    /// <param name="row">The car at the first way of running, a row of <see cref="Predicted.Width"/>; empty without
    /// any.</param>
    /// <param name="tube">Orifice tube in place of a valve.</param>
    public static double Of(Sign sign, IReadOnlyList<Fault> faults, LoopFaults car, ReadOnlySpan<double> row, bool tube)
    {
        foreach (var group in SignGroups.All)
        {
            var place = group.IndexOf(sign);
            if (place < 0)
                continue;
            Span<double> odds = stackalloc double[group.Length];
            Fill(group[0], faults, car, row, tube, odds);
            return odds[place];
        }

        throw new ArgumentOutOfRangeException(nameof(sign), sign, "No such sign.");
    }

    /// <summary>Outcomes for a car of no known kind: a quarter by chance, else as a sound car's.</summary>
    public static double Anything(Sign sign) =>
        (0.25 / SignGroups.Of(sign).Length)
        + (0.75 * Of(sign, [], LoopFaults.None, [], tube: false));

    private static void Fill(
        Sign first,
        IReadOnlyList<Fault> faults,
        LoopFaults car,
        ReadOnlySpan<double> row,
        bool tube,
        Span<double> odds
    )
    {
        // The likeliest outcome of a sound car first; every fault that the sign speaks of may replace it.
        var off = !row.IsEmpty && row[Predicted.Off] > 0;
        switch (first)
        {
            case Sign.FanRuns:
                if (car.CondenserFanLoss > 0.75)
                    Set(odds, 0.06, 0.14, 0.80);
                else if (car.CondenserFanLoss > 0)
                    Set(odds, 0.22, 0.66, 0.12);
                else if (off)
                    Set(odds, 0.50, 0.08, 0.42);
                else
                    Set(odds, 0.93, 0.04, 0.03);
                break;
            case Sign.CoolsSteadily:
                Course(faults, car, odds);
                break;
            case Sign.ColdAgainAfterRest:
                Two(
                    odds,
                    Has(faults, Fault.MoistureIce) ? 0.85
                        : Has(faults, Fault.EvaporatorAir)
                        || Has(faults, Fault.SwitchMisset)
                        || Has(faults, Fault.ControlStuckHigh)
                            ? 0.50
                        : Has(faults, Fault.ClutchSlips) ? 0.40
                        : 0.12
                );
                break;
            case Sign.SidesEqualAtOnce:
                if (Has(faults, Fault.CompressorWorn))
                    Set(odds, 0.10 + (0.75 * car.CompressorWear), 0.10 - (0.05 * car.CompressorWear), 0);
                else if (car.TubeOversize > 0 || car.ValveStuckOpen > 0.5)
                    Set(odds, 0.30, 0.10, 0);
                else if (Has(faults, Fault.AirInside))
                    Set(odds, 0.05, 0.60, 0);
                else if (car.ValveStuckClosed + car.TubePlugged > 0.7)
                    Set(odds, 0.02, 0.08, 0);
                else
                    Set(odds, tube ? 0.12 : 0.07, 0.13, 0);
                odds[2] = 1 - odds[0] - odds[1];
                break;
            case Sign.LowPipeCold:
                Two(
                    odds,
                    Has(faults, Fault.AirInside) ? 0.35
                        : row.IsEmpty ? 0.7
                        : 0.06 + (0.88 * Logistic((290.15 - row[(int)Channel.SuctionLine]) / 2.5))
                );
                break;
            case Sign.NoStepAlongLiquidLine:
                var step = Has(faults, Fault.LineRestricted)
                    ? row.IsEmpty
                        ? 0.7
                        : Logistic((row[(int)Channel.LineStep] - 4) / 1.5)
                    : 0;
                var closed = car.TubePlugged + car.ValveStuckClosed + car.ThrottleIced > 0.7 ? 0.20 : 0.06;
                Set(odds, 0, 0.05 + (0.55 * step), closed + (0.25 * step));
                odds[0] = 1 - odds[1] - odds[2];
                break;
            case Sign.HosePinchedColder:
                Two(odds, car.BlendDoorLeak > 0 ? 0.92 : 0.05);
                break;
            case Sign.AirStrong:
                Two(odds, Has(faults, Fault.EvaporatorAir) ? 0.15 : 0.93);
                break;
            case Sign.VentsAlike:
                Two(
                    odds,
                    Has(faults, Fault.BlendDoorLeaks) ? 0.60
                        : Has(faults, Fault.Undercharge) ? 0.75
                        : 0.93
                );
                break;
            case Sign.NoHotAirAtInlet:
                Two(odds, Has(faults, Fault.BlendDoorLeaks) ? 0.85 : 0.96);
                break;
            case Sign.NeedlesSteady:
                Needles(faults, row, odds);
                break;
            case Sign.ValveAskedFor:
                Two(
                    odds,
                    Has(faults, Fault.ControlNotAsked) ? 0.05
                        : Has(faults, Fault.ControlStuckLow) ? 0.93
                        : 0.85
                );
                break;
            case Sign.SensorAgreesWithGauge:
                Two(odds, Has(faults, Fault.NoVoltage) || Has(faults, Fault.ControlNotAsked) ? 0.65 : 0.96);
                break;
            case Sign.VoltageAtClutch:
                // A circuit too empty for its pressure switch gets none either.
                Two(
                    odds,
                    Has(faults, Fault.NoVoltage) ? 0.04
                        : off && !Has(faults, Fault.ClutchDead) ? 0.10
                        : 0.95
                );
                break;
            case Sign.FoamAtLowerRevs:
                Two(
                    odds,
                    Has(faults, Fault.Overcharge) ? 0.15
                        : Has(faults, Fault.Undercharge) || Has(faults, Fault.AirInside) ? 0.85
                        : 0.60
                );
                break;
            case Sign.EngineTemperatureRight:
                Two(odds, car.CondenserFanLoss + car.CondenserAirLoss > 0.5 ? 0.72 : 0.95);
                break;
            case Sign.OilClean:
                if (Has(faults, Fault.CompressorWorn))
                    Set(odds, 0.45, 0.30, 0.25);
                else if (Has(faults, Fault.TubePlugged) || Has(faults, Fault.ValveStuckClosed))
                    Set(odds, 0.55, 0.25, 0.20);
                else
                    Set(odds, 0.92, 0.06, 0.02);
                break;
            case Sign.BeltRight:
                if (Has(faults, Fault.ClutchSlips))
                    Set(odds, 0.25, 0.70, 0.05);
                else if (Has(faults, Fault.ClutchDead))
                    Set(odds, 0.12, 0.06, 0.82);
                else if (Has(faults, Fault.NoVoltage) || off)
                    Set(odds, 0.15, 0.02, 0.83);
                else
                    Set(odds, 0.95, 0.04, 0.01);
                break;
            default:
                Two(odds, car.CondenserAirLoss + car.CondenserFouling > 0 ? 0.22 : 0.86);
                break;
        }
    }

    private static void Course(IReadOnlyList<Fault> faults, LoopFaults car, Span<double> odds)
    {
        if (Has(faults, Fault.MoistureIce))
            Set(odds, 0.04, 0.64, 0.29, 0.03);
        else if (car.CondenserFanLoss > 0)
            Set(odds, 0.31, 0.06, 0.10, 0.53);
        else if (car.CondenserAirLoss + car.CondenserFouling > 0)
            Set(odds, 0.60, 0.05, 0.09, 0.26);
        else if (Has(faults, Fault.EvaporatorAir))
            Set(odds, 0.62, 0.08, 0.25, 0.05);
        else if (Has(faults, Fault.SwitchMisset) || Has(faults, Fault.ControlStuckHigh))
            Set(odds, 0.50, 0.22, 0.23, 0.05);
        else if (Has(faults, Fault.ClutchSlips))
            Set(odds, 0.40, 0.26, 0.24, 0.10);
        else if (Has(faults, Fault.NoVoltage))
            Set(odds, 0.60, 0.32, 0.06, 0.02);
        else if (Has(faults, Fault.CompressorWorn))
            Set(odds, 0.60, 0.02, 0.04, 0.34);
        else if (Has(faults, Fault.Overcharge) || Has(faults, Fault.AirInside))
            Set(odds, 0.65, 0.06, 0.08, 0.21);
        else if (Has(faults, Fault.ValveStuckClosed))
            Set(odds, 0.79, 0.09, 0.07, 0.05);
        else
            Set(odds, 0.84, 0.04, 0.05, 0.07);
    }

    private static void Needles(IReadOnlyList<Fault> faults, ReadOnlySpan<double> row, Span<double> odds)
    {
        if (Has(faults, Fault.MoistureIce))
            Set(odds, 0.22, 0.66, 0.12);
        else if (!row.IsEmpty && row[Predicted.Off] == 0 && row[Predicted.Duty] < 0.97)
            Set(odds, 0.30, 0.65, 0.05);
        else if (Has(faults, Fault.AirInside))
            Set(odds, 0.50, 0.08, 0.42);
        else if (Has(faults, Fault.CompressorWorn))
            Set(odds, 0.45, 0.20, 0.35);
        else if (Has(faults, Fault.ValveStuckClosed) || Has(faults, Fault.ValveStuckOpen))
            Set(odds, 0.65, 0.30, 0.05);
        else
            Set(odds, 0.87, 0.08, 0.05);
    }

    private static void Two(Span<double> odds, double first) => Set(odds, first, 1 - first);

    private static void Set(Span<double> odds, params ReadOnlySpan<double> values) => values.CopyTo(odds);

    private static bool Has(IReadOnlyList<Fault> faults, Fault fault)
    {
        for (var i = 0; i < faults.Count; i++)
            if (faults[i] == fault)
                return true;
        return false;
    }

    private static double Logistic(double x) => 1 / (1 + Math.Exp(-Math.Clamp(x, -40, 40)));
}
