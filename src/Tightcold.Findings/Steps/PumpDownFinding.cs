using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Picture;
using Tightcold.Picture.Circuit;
using Tightcold.Picture.Pressures;
using Tightcold.Picture.Vacuum;
using Tightcold.Procedures.Evacuation;
using Tightcold.Procedures.Substances;
using Tightcold.Properties;
using Tightcold.Quantities;
using static Tightcold.Picture.Pressures.Evidence;

namespace Tightcold.Findings.Steps;

/// <summary>Deep enough for water to boil out of the coldest part?</summary>
internal static class PumpDownFinding
{
    private const string Title = "Pump down";

    public static Finding Of(JobPicture picture)
    {
        var (record, view) = (picture.Record, picture.Pump);
        var moment = record.Journal.Last(EntryKinds.VacuumReading)?.ObservedAt ?? record.Job.OpenedAt;
        var air = AirPressure.At(record, moment);
        Caution[] hazards =
        [
            new(
                "pump-under-pressure",
                Danger.Hurts,
                Phrase.Words(
                    "Never pull down a system that still holds pressure: recover first; the pump lets refrigerant into "
                        + "the air."
                ),
                "common practice"
            ),
            new(
                "compressor-under-vacuum",
                Danger.Spoils,
                Phrase.Words("Never run a compressor under vacuum."),
                "common practice"
            ),
        ];
        var deepest = Estimate.Normal(
            "deepest-dial",
            "Deepest a dial can show here",
            QuantityKind.GaugePressure,
            Gauges.Shown(0, air.Pascals).Si,
            air.SigmaPa
        );
        var rows = VacuumReadings.SincePumpStart(picture).Where(row => !row.Isolated).ToArray();
        if (rows.Length == 0)
        {
            return new(Step.PumpDown, Title, Certainty.NothingYet, Judgement.Open, Phrase.Words("Not pulled down yet."))
            {
                Why = PumpWords.HowLong(view),
                Estimates = [deepest, .. PumpWords.Estimates(view)],
                Assumptions =
                [
                    .. air.Assumption is { } guess ? [guess] : Array.Empty<Assumption>(),
                    .. view.Assumptions,
                ],
                Hazards = [.. hazards],
                Next =
                [
                    new(
                        Phrase.Words(
                            "Pull on both sides and read an absolute gauge at the far port, with the temperature of "
                                + "the coldest part"
                        ),
                        Phrase.Words("whether water must boil out"),
                        45,
                        EntryKinds.VacuumReading,
                        Doing.PullsVacuum
                    ),
                ],
            };
        }
        var best = rows.MinBy(row => row.Reading.PressurePa)!;
        var last = rows[^1];
        var temperature = last.Reading.TemperatureK
            ?? record.WeatherAt(moment)?.Fields.Si(FieldNames.AmbientTemperature);
        var estimates = new List<Estimate>
        {
            deepest,
            Estimate.Normal(
                "vacuum",
                "Absolute pressure reached",
                QuantityKind.Vacuum,
                last.Reading.PressurePa,
                last.Reading.SigmaPa,
                last.OnDial ? EstimateOrigin.Computed : EstimateOrigin.Measured,
                0
            ),
        };
        if (Boiling(last.Reading.PressurePa) is { } boilingK)
        {
            double lowK = Boiling(Math.Max(1, last.Reading.PressurePa - Estimate.Z90 * last.Reading.SigmaPa))
                ?? boilingK;
            double highK = Boiling(last.Reading.PressurePa + Estimate.Z90 * last.Reading.SigmaPa) ?? boilingK;
            estimates.Add(
                Estimate.Between(
                    "water-boils",
                    "Water boils (or ice leaves) above",
                    QuantityKind.Temperature,
                    boilingK,
                    lowK,
                    highK
                )
            );
        }
        var (certainty, judgement, verdict, why) = Judge(last, temperature);
        return new(Step.PumpDown, Title, certainty, judgement, verdict)
        {
            Why = why.Then(PumpWords.AgainstExpected(view))
                .Then(judgement == Judgement.Good ? Phrase.Empty : PumpWords.HowLong(view)),
            Estimates = [.. estimates, .. PumpWords.Estimates(view)],
            RestsOn = best == last ? [last.Entry.Id] : [best.Entry.Id, last.Entry.Id],
            Assumptions =
            [
                .. last.OnDial && air.Assumption is { } assumed ? [assumed] : Array.Empty<Assumption>(),
                .. view.Assumptions,
            ],
            Missing = Missing(last),
            Hazards = [.. hazards, .. PumpWords.Warnings(view, last.OnDial).Select(StepCautions.Mind)],
            Next =
                picture.Hold is not null || picture.Timeline.Now.Inside != Inside.Vacuum ? []
                : judgement == Judgement.Good
                    ?
                    [
                        new(
                            Phrase.Words("Shut the valve to the pump and read the rise, with temperatures"),
                            Phrase.Words("whether it holds: leak, water or tight"),
                            30,
                            EntryKinds.VacuumReading
                        ),
                    ]
                :
                [
                    new(
                        Phrase.Words("Go on pumping; warm the coldest parts"),
                        Phrase.Words("water leaves faster from warm parts"),
                        20,
                        EntryKinds.VacuumReading,
                        Doing.PullsVacuum
                    ),
                ],
        };
    }

    private static Phrase[] MissingTemperature =>
        [Phrase.Words("the temperature of the coldest part: water is judged by it")];

    private static System.Collections.Immutable.ImmutableArray<Phrase> Missing(VacuumReadings.Row last)
    {
        var missing = new List<Phrase>();
        if (last.Reading.TemperatureK is null)
            missing.AddRange(MissingTemperature);
        if (last.OnDial)
            missing.Add(
                Phrase.Words(
                    "an absolute (micron) gauge: near the bottom a dial's own error is larger than what must be read"
                )
            );
        // While it pumps, the hoses' drop lies between pump and car; common practice.
        if (!last.Isolated && last.Entry.Fields.Text(FieldNames.MeasuredAt) == Chosen.AtThePump)
            missing.Add(
                Phrase.Words("the gauge at the far port: beside the pump it shows the pump's vacuum, not the car's")
            );
        return [.. missing];
    }

    private static (Certainty, Judgement, Phrase, Phrase) Judge(VacuumReadings.Row last, double? temperature)
    {
        if (temperature is not { } partK)
            return (
                Certainty.Weak,
                Judgement.CannotTell,
                Phrase.Of(
                    $"{Vacuum(last.Reading.PressurePa)} reached; without a temperature nobody knows whether water "
                        + $"boils."
                ),
                Phrase.Empty
            );
        var waterPa = Dryness.BoilsBelowPa(partK);
        var odds = Dryness.OddsThatItBoils(partK, last.Reading.PressurePa, last.Reading.SigmaPa);
        var why = Phrase.Of(
            $"Water at {At(partK)} boils below {Vacuum(waterPa)}; the gauge stands at "
                + $"{Vacuum(last.Reading.PressurePa)} ± {Vacuum(SigmasInPlusMinus * last.Reading.SigmaPa)}."
        );
        if (odds >= 0.95)
            return (
                Certainty.Stands,
                Judgement.Good,
                Phrase.Of(
                    $"Deep enough: water must boil out of parts at {At(partK)}. How dry it got only the hold can show."
                ),
                why
            );
        if (odds <= 0.05)
            return (
                Certainty.Stands,
                Judgement.Bad,
                Phrase.Of(
                    $"Not deep enough: at {Vacuum(last.Reading.PressurePa)} water stays liquid in parts at {At(partK)}."
                ),
                why
            );
        return (
            Certainty.Weak,
            Judgement.CannotTell,
            Phrase.Of($"Cannot tell: {Odds(odds)} that water boils at {At(partK)}; this gauge cannot resolve it."),
            why
        );
    }

    private static double? Boiling(double pressurePa) =>
        pressurePa is > 1 and < 200e3 ? WaterVapour.SaturationTemperatureK(pressurePa) : null;
}
