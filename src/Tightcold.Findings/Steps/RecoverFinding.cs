using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Picture;
using Tightcold.Picture.Circuit;
using Tightcold.Picture.Recover;
using Tightcold.Picture.Standing;
using Tightcold.Procedures.Recovery;
using Tightcold.Procedures.Rules;
using Tightcold.Procedures.Substances;
using Tightcold.Quantities;
using static Tightcold.Picture.Pressures.Evidence;

namespace Tightcold.Findings.Steps;

/// <summary>What was taken out, into which cylinder, whether the cylinder may hold it, whether it was all, and by
/// which rules.</summary>
internal static class RecoverFinding
{
    private const string Title = "Recovery";
    private static readonly Caution Cylinder = new(
        "recovery-cylinder",
        Danger.Life,
        Phrase.Words(
            "Only into a refillable recovery cylinder within its test date, never a disposable one; never mix "
                + "refrigerants."
        ),
        "common practice"
    );

    public static Finding Of(JobPicture picture)
    {
        var record = picture.Record;
        var place = LawAndSubstance.PlaceOf(record);
        var hazards = new List<Caution> { Cylinder, StepCautions.Freezes };
        if (picture.Came.Says == StandingSays.OtherGas)
            hazards.Add(
                StepCautions.Now(
                    Phrase.Words(
                        "The standing pressure says that another gas is inside: recover it into a cylinder of its own, "
                            + "marked mixed or unknown; never reuse it, never mix it into a clean one."
                    )
                )
            );
        if (picture.Recovery is not { } recovery)
            return NothingYet(picture, place, hazards);
        var missing = new List<Phrase>();
        var room = Cylinders(recovery, hazards, missing);
        End(recovery, missing);
        Papers(recovery, missing);
        var overfilled = recovery.Cylinders.Any(cylinder => cylinder.Overfilled);
        var judgement =
            overfilled ? Judgement.Bad
            : recovery.Ended == false || recovery.Thought is { Contradict: true } ? Judgement.CannotTell
            : Judgement.Good;
        return new(
            Step.Recover,
            Title,
            missing.Count == 0 ? Certainty.Stands : Certainty.Weak,
            judgement,
            Verdict(record, recovery.RecoveredKg, recovery.Ended)
        )
        {
            Why = Why(recovery.Thought).Then(room).Then(Rules(place)),
            Estimates = [.. Estimates(recovery)],
            RestsOn = [.. recovery.Entries.Select(entry => entry.Id)],
            Missing = [.. missing],
            Hazards = [.. hazards],
            Next =
                recovery.Ended == false
                    ?
                    [
                        new(
                            Phrase.Words("Recover again, wait five minutes, read the gauge"),
                            Phrase.Words("whether the oil still gives off refrigerant"),
                            15,
                            EntryKinds.Recovery,
                            Doing.TakesOut
                        ),
                    ]
                : picture.Timeline.Now.Inside == Inside.Recovered
                    ?
                    [
                        new(
                            Phrase.Words("Open the joints, mend, cap what stays open"),
                            Phrase.Words("nothing more gets wet than must"),
                            60,
                            EntryKinds.SealChanged
                        ),
                    ]
                : [],
            Table = Table(place, record),
        };
    }

    private static Finding NothingYet(JobPicture picture, PlaceRules place, List<Caution> hazards)
    {
        var empty = picture.Came.Says == StandingSays.OpenToAir;
        return new(
            Step.Recover,
            Title,
            empty ? Certainty.Stands : Certainty.NothingYet,
            empty ? Judgement.Good : Judgement.Open,
            empty
                ? Phrase.Words("Nothing to recover: it came without pressure.")
                : Phrase.Words("Nothing recovered yet.")
        )
        {
            RestsOn = empty ? [picture.Came.Entry!.Id] : [],
            Why = empty ? Phrase.Empty : Rules(place),
            Hazards = [.. hazards],
            Next = empty
                ? []
                :
                [
                    new(
                        Phrase.Words("Before a joint is opened: have what is left recovered and weighed"),
                        Phrase.Words("how much was in, and it stays lawful"),
                        35,
                        EntryKinds.Recovery,
                        Doing.TakesOut
                    ),
                ],
            Table = Table(place, picture.Record),
        };
    }

    private static IEnumerable<Estimate> Estimates(RecoveryPicture recovery)
    {
        yield return Estimate.Normal(
            "recovered",
            "Recovered, oil that came along included",
            QuantityKind.Mass,
            recovery.RecoveredKg,
            recovery.SigmaKg,
            EstimateOrigin.Measured,
            0
        );
        if (recovery.End is { } end)
            yield return Estimate.Between(
                "left-inside",
                "Still inside, in vapour and oil",
                QuantityKind.Mass,
                0.5 * (end.LeftLeastKg + end.LeftMostKg),
                end.LeftLeastKg,
                end.LeftMostKg,
                EstimateOrigin.Computed
            );
    }

    /// <summary>Fill of each cylinder that was used, and the room that is left.</summary>
    private static Phrase Cylinders(RecoveryPicture recovery, List<Caution> hazards, List<Phrase> missing)
    {
        var room = Phrase.Empty;
        foreach (var cylinder in recovery.Cylinders)
        {
            var name = Phrase.Verbatim(cylinder.Name);
            if (cylinder.MayKg is not { } most)
                missing.Add(Phrase.Of($"the tare of {name}: without it the fill of the cylinder is not known"));
            else if (cylinder.Overfilled)
                hazards.Insert(
                    0,
                    StepCautions.Now(
                        Phrase.Of(
                            $"{name} holds {Kilograms(cylinder.NetKg)}, more than the {Kilograms(most)} it "
                                + $"may (80 % full at {At(cylinder.HottestK)}): it can burst when it warms. Move some "
                                + $"to another cylinder now."
                        )
                    )
                );
            else
                room = room.Then(
                    cylinder.ContentUnknown
                        ? Phrase.Of(
                            $"{name} holds {Kilograms(cylinder.NetKg)} of the {Kilograms(most)} it may, cautiously, "
                                + $"since its contents are unknown; {Kilograms(most - cylinder.NetKg)} of room."
                        )
                        : Phrase.Of(
                            $"{name} holds {Kilograms(cylinder.NetKg)} of the {Kilograms(most)} it may; "
                                + $"{Kilograms(most - cylinder.NetKg)} of room."
                        )
                );
        }
        return room;
    }

    private static void End(RecoveryPicture recovery, List<Phrase> missing)
    {
        if (recovery.End is null)
            missing.Add(
                Phrase.Words(
                    "the pressure at the end and five minutes later: a rise means there is more to take out of the oil"
                )
            );
        if (recovery.WaitedEnough == false)
            missing.Add(
                Phrase.Of(
                    $"a wait of {Measure.Seconds(RecoveryEnd.LeastWaitS)} or more: the oil gives off its refrigerant "
                        + $"slowly"
                )
            );
    }

    private static Phrase Verdict(JobRecord record, double recoveredKg, bool? ended)
    {
        var amount = record.Car.LabelCharge?.Kilograms is { } full
            ? Phrase.Of($"{Kilograms(recoveredKg)} recovered, {Share(recoveredKg / full)} of the label charge")
            : Phrase.Of($"{Kilograms(recoveredKg)} recovered");
        return ended == false
            ? Phrase.Of($"{amount}; not at its end: the pressure rose again.")
            : Phrase.Of($"{amount}.");
    }

    private static Phrase Rules(PlaceRules place) => Phrase.Of($"Rules: {place.Called}. {RuleBook.AlwaysSay}");

    private static Phrase Why(RecoveredAgainst? thought) =>
        thought is not { } against ? Phrase.Empty
        : against.Contradict
            ? against.DifferenceKg > 0
                    ? Phrase.Of(
                        $"{Kilograms(against.DifferenceKg)} more came out than the standing pressure allowed: a gauge "
                            + $"off, another temperature in the parts, or liquid was hidden somewhere."
                    )
                : Phrase.Of(
                    $"{Kilograms(-against.DifferenceKg)} less came out than the standing pressure said: some is still "
                        + $"inside, or it was lost on the way."
                )
        : Phrase.Words("What came out agrees with what the standing pressure said was in.");

    private static void Papers(RecoveryPicture recovery, List<Phrase> missing)
    {
        if (recovery.Entries.Any(entry => entry.Fields.Text(FieldNames.Certificate) is not null))
            return;
        missing.Add(Phrase.Words("certificate or licence of who recovered, where the rules ask for a record"));
    }

    private static FindingTable Table(PlaceRules place, JobRecord record) =>
        new(
            Phrase.Of($"Rules of {place.Called}; {RuleBook.AlwaysSay}"),
            ["What", "Where it stands", "How sure"],
            [
                .. place
                    .Lines.Where(line =>
                        line.IsAbout(record.Car.Refrigerant) && line.Meets(LawAndSubstance.WhoWorks(record.Kit))
                    )
                    .Select(line =>
                        ImmutableArray.Create(RuleWords.Plain(line), RuleWords.Stands(line), RuleWords.Sure(line))
                    ),
            ]
        );
}
