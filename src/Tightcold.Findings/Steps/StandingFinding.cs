using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Picture;
using Tightcold.Picture.Circuit;
using Tightcold.Picture.Standing;
using Tightcold.Procedures.Standing;
using Tightcold.Procedures.Substances;
using Tightcold.Quantities;
using static Tightcold.Picture.Pressures.Evidence;

namespace Tightcold.Findings.Steps;

/// <summary>What the car came with, from pressures with the engine off.</summary>
internal static class StandingFinding
{
    private const string Title = "What is left";

    private static readonly ImmutableArray<Caution> Hazards = [StepCautions.Freezes];

    public static Finding Of(JobPicture picture)
    {
        var came = picture.Came;
        if (
            came.Doubted is [.., var doubted]
            && picture.Timeline.Moments.Last(moment => moment.Entry.Kind == EntryKinds.StandingReading).Doubt
                is not null
        )
            return DoubtWords.Finding(Step.StandingPressure, Title, picture, doubted.Entry, doubted.Doubt) with
            {
                Hazards = Hazards,
            };
        if (came is not { Entry: { } entry, Reading: { } reading })
            return NothingYet(picture);
        var (judgement, verdict, why) = Say(picture, came, reading);
        return new(Step.StandingPressure, Title, Certain(came), judgement, verdict)
        {
            Why = Note(picture, entry, reading).Then(why),
            Estimates = [.. Estimates(came, reading)],
            RestsOn = [.. new[] { came.Earlier?.Id, entry.Id, came.Otherwise?.Entry.Id }.OfType<Guid>().Distinct()],
            Assumptions = [.. Assumptions(picture, came, reading)],
            Missing =
                reading.OnlyTheAir && came.Says != StandingSays.OpenToAir
                    ?
                    [
                        Phrase.Words(
                            "the temperature of the condenser and of the cabin: liquid sits in the coldest part"
                        ),
                    ]
                    : [],
            Hazards = [.. CautionsOf(came), .. Hazards],
            Next =
                picture.Timeline.Now.Inside == Inside.AsItCame || came.Says == StandingSays.OpenToAir ? Next(came) : [],
        };
    }

    private static Finding NothingYet(JobPicture picture)
    {
        var written = picture.Timeline.Moments.Any(moment => moment.Entry.Kind == EntryKinds.StandingReading);
        return new(
            Step.StandingPressure,
            Title,
            Certainty.NothingYet,
            Judgement.Open,
            written
                ? Phrase.Words("Not read before refrigerant was moved: what it came with is not known.")
                : Phrase.Words("Not read yet.")
        )
        {
            Hazards = Hazards,
            Next =
            [
                new(
                    Phrase.Words("Read both gauges with the engine cold and off, and the air temperature"),
                    Phrase.Words("whether liquid is left, vapour only, or air got in"),
                    10,
                    EntryKinds.StandingReading
                ),
            ],
        };
    }

    private static Certainty Certain(StandingPicture came) =>
        came.Says == StandingSays.MayBeAnother || !came.IsSure ? Certainty.Weak : Certainty.Stands;

    private static (Judgement, Phrase, Phrase) Say(JobPicture picture, StandingPicture came, RestingReading reading)
    {
        var fluid = Phrase.Verbatim(FluidOf(picture.Record.Car).DisplayName);
        // Once refrigerant was moved, this speaks of how it came.
        var still = picture.Timeline.Now.Inside == Inside.AsItCame || came.Says == StandingSays.OpenToAir;
        var at = At(reading.Standing.TemperatureK);
        switch (came.Says)
        {
            case StandingSays.OpenToAir:
                return (
                    Judgement.Bad,
                    Phrase.Words("No pressure: it is open somewhere, and air and water have got in."),
                    Phrase.Words(
                        "Nothing is left to recover. Find the hole first; a new drier belongs in, and a long pump-down."
                    )
                );
            case StandingSays.NotTheLabels:
                return (
                    Judgement.Bad,
                    Phrase.Of(
                        $"Not {fluid} inside: the identifier says “{came.Otherwise!.Says}”. Its pressure tells nothing."
                    ),
                    Phrase.Empty
                );
            case StandingSays.MayBeAnother:
                return (
                    Judgement.CannotTell,
                    Phrase.Of(
                        $"Cannot tell: {Phrase.Verbatim(came.MayBe[0].Fluid.DisplayName)} with liquid inside would "
                            + $"stand here, {fluid} with liquid would not."
                    ),
                    came.Left is { } ifSo
                        ? Phrase.Of($"If it is {fluid}, it is vapour only: about {Kilograms(ifSo.MeanKg)}.")
                        : Phrase.Empty
                );
            case StandingSays.VapourOnly:
                var left = came.Left!.Value;
                var (low, high) = Ends(left);
                var (about, range) = (Kilograms(left.MeanKg), (Kilograms(low), Kilograms(high)));
                var full = picture.Record.Car.LabelCharge?.Kilograms ?? 0;
                var share = (Share(full > 0 ? low / full : 0), Share(full > 0 ? high / full : 0));
                return (
                    Judgement.Bad,
                    (still, full > 0) switch
                    {
                        (true, true) => Phrase.Of(
                            $"Vapour only: about {about} left ({range}), {share} of the label charge."
                        ),
                        (true, false) => Phrase.Of($"Vapour only: about {about} left ({range})."),
                        (false, true) => Phrase.Of(
                            $"It came with vapour only: about {about} ({range}), {share} of the label charge."
                        ),
                        _ => Phrase.Of($"It came with vapour only: about {about} ({range})."),
                    },
                    Phrase.Of(
                        $"With liquid inside it would stand at {Absolute(came.SaturationPa)} at {at}. "
                            + $"{Kilograms(left.InVapourKg)} is vapour in the pipes, about {Kilograms(left.InOilKg)} "
                            + $"is in the oil."
                    )
                );
            case StandingSays.LiquidPresent:
                return (
                    Judgement.CannotTell,
                    still
                        ? Phrase.Of(
                            $"Liquid is present: at least {Kilograms(came.LeastKg!.Value)}, and this reading cannot "
                                + $"say how much more."
                        )
                        : Phrase.Of($"It came with liquid inside: at least {Kilograms(came.LeastKg!.Value)}."),
                    Phrase.Of(
                        $"While a drop of liquid remains, the pressure stays at {Absolute(came.SaturationPa)} for "
                            + $"{at}, whether it is a fifth full or full."
                    )
                );
            case StandingSays.OtherGas:
                return (
                    Judgement.Bad,
                    still
                        ? Phrase.Of(
                            $"Air or another gas is inside: {Difference(came.ExcessPa)} above what {fluid} alone can "
                                + $"have at {at}."
                        )
                        : Phrase.Of(
                            $"Air or another gas was inside: {Difference(came.ExcessPa)} above what {fluid} alone can "
                                + $"have at {at}."
                        ),
                    still
                        ? Phrase.Words(
                            "Recover it, evacuate and weigh in fresh; an unknown mixture is never reused or mixed "
                                + "into a clean cylinder."
                        )
                        : Phrase.Empty
                );
            default:
                return (
                    Judgement.CannotTell,
                    Phrase.Of(
                        $"Cannot tell: vapour only {Odds(came.Odds.VapourOnly)}, liquid present "
                            + $"{Odds(came.Odds.LiquidPresent)}, another gas {Odds(came.Odds.OtherGas)}."
                    ),
                    Phrase.Of(
                        $"The reading lies within its own error of {Absolute(came.SaturationPa)}, the pressure with "
                            + $"liquid inside at {at}."
                    )
                );
        }
    }

    private static (double Low, double High) Ends(MassBelief left) =>
        (Math.Max(0, left.MeanKg - (Estimate.Z90 * left.SigmaKg)), left.MeanKg + (Estimate.Z90 * left.SigmaKg));

    private static IEnumerable<Estimate> Estimates(StandingPicture came, RestingReading reading)
    {
        yield return Estimate.Normal(
            "standing-pressure",
            "Standing pressure",
            QuantityKind.AbsolutePressure,
            reading.Standing.PressurePa,
            reading.Standing.PressureSigmaPa,
            EstimateOrigin.Measured,
            0
        );
        if (came.Says is StandingSays.OpenToAir or StandingSays.NotTheLabels)
            yield break;
        yield return Estimate.Normal(
            "saturation-pressure",
            "With liquid inside it would stand at",
            QuantityKind.AbsolutePressure,
            came.SaturationPa,
            came.SaturationSigmaPa,
            floor: 0
        );
        if (came is { Says: StandingSays.VapourOnly, Left: { } left })
            yield return Estimate.Normal(
                "mass-left",
                "Refrigerant it came with",
                QuantityKind.Mass,
                left.MeanKg,
                left.SigmaKg,
                floor: 0
            );
        else if (came is { Says: StandingSays.LiquidPresent, LeastKg: { } least })
            yield return Estimate.AtLeast("mass-left", "Refrigerant it came with", QuantityKind.Mass, least);
        else if (came.Says == StandingSays.OtherGas)
            yield return Estimate.Normal(
                "excess-pressure",
                "Pressure of the other gas",
                QuantityKind.PressureDifference,
                came.ExcessPa,
                came.ExcessSigmaPa,
                floor: 0
            );
    }

    private static Phrase Note(JobPicture picture, Entry entry, RestingReading reading)
    {
        var kit = picture.Record.KitAt(entry.ObservedAt);
        var note =
            kit.Has(FieldNames.LowGaugeZero) || kit.Has(FieldNames.HighGaugeZero)
                ? Phrase.Words("The gauges' own zero in open air is taken off.")
                : Phrase.Empty;
        return reading.ApartPa == 0
            ? note
            : note.Then(
                Phrase.Of(
                    $"The two sides differ by {Difference(reading.ApartPa)}, more than these gauges explain: not yet "
                        + $"at rest, a hose valve shut, or a gauge off."
                )
            );
    }

    private static IEnumerable<Assumption> Assumptions(JobPicture picture, StandingPicture came, RestingReading reading)
    {
        if (reading.Air.Assumption is { } air)
            yield return air;
        if (came.Says is StandingSays.OpenToAir or StandingSays.NotTheLabels)
            yield break;
        if (!reading.SoakKnown)
        {
            yield return new(
                Phrase.Words("The engine has been off long enough for one temperature everywhere"),
                Phrase.Of(
                    $"an hour after a drive the parts may still differ by {Kelvins(2)}; {Kelvins(1)} moves the "
                        + $"pressure with liquid inside by about {Measure.Ratio(0.03)}"
                )
            );
        }
        if (VolumeOf(picture.Record.Car).Assumption is { } volume && came.Left is not null)
            yield return volume;
    }

    private static IEnumerable<Caution> CautionsOf(StandingPicture came) =>
        came.Says == StandingSays.MayBeAnother ? IdentificationWords.WrongRefrigerant(came.MayBe) : [];

    private static ImmutableArray<NextAction> Next(StandingPicture came)
    {
        var weigh = new NextAction(
            Phrase.Words("Have it recovered and weighed"),
            Phrase.Words("how much is in, to some grams"),
            35,
            EntryKinds.Recovery,
            Doing.TakesOut
        );
        return came.Says switch
        {
            StandingSays.OpenToAir =>
            [
                new(
                    Phrase.Words("Find the hole: look for oil and damage, then dry nitrogen and soap"),
                    Phrase.Words("where the air got in"),
                    30,
                    EntryKinds.LeakCheck
                ),
            ],
            StandingSays.NotTheLabels => [IdentificationWords.Recover],
            StandingSays.MayBeAnother => [IdentificationWords.Identify],
            StandingSays.VapourOnly =>
            [
                new(
                    Phrase.Words("Search the leaks before adding anything"),
                    Phrase.Words("where it went; it must be brought to pressure for that"),
                    30,
                    EntryKinds.LeakCheck
                ),
                weigh,
            ],
            StandingSays.LiquidPresent =>
            [
                new(
                    Phrase.Words("Run it and read both gauges"),
                    Phrase.Words("whether the charge is enough to cool"),
                    10,
                    EntryKinds.RunningReading,
                    Doing.RunsCompressor
                ),
                weigh,
            ],
            StandingSays.OtherGas => [IdentificationWords.Identify, weigh],
            _ =>
            [
                new(
                    Phrase.Of($"Read again when the car is {Kelvins(10)} warmer or colder"),
                    Phrase.Words("liquid moves the pressure by a quarter, vapour barely"),
                    5,
                    EntryKinds.StandingReading
                ),
                weigh,
            ],
        };
    }
}
