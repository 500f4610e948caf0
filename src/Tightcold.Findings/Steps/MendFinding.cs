using System.Collections.Immutable;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Picture;
using Tightcold.Picture.Circuit;
using Tightcold.Picture.Mend;
using Tightcold.Procedures.Oil;
using Tightcold.Procedures.Parts;
using Tightcold.Procedures.Substances;
using Tightcold.Quantities;
using static Tightcold.Picture.Pressures.Evidence;

namespace Tightcold.Findings.Steps;

/// <summary>Parts, seals, drier and oil.</summary>
internal static class MendFinding
{
    private const string Title = "Parts, seals and oil";

    public static Finding Of(JobPicture picture)
    {
        var (record, mend) = (picture.Record, picture.Mend);
        var hazards = new List<Caution>
        {
            StepCautions.Freezes with
            {
                Says = Phrase.Words(
                    "Loosen a joint slowly with goggles and gloves on: pressure may remain behind it even after "
                        + "recovery."
                ),
            },
            new(
                "seals",
                Danger.Spoils,
                Phrase.Of(
                    $"New seals of {SealMaterial.For(record.Car.Refrigerant)}, oiled with the system's own oil; "
                        + $"tighten with two spanners to the maker's figure. Caps are seals: every one back on."
                ),
                "common practice"
            ),
        };
        if (mend.Work.IsEmpty)
        {
            return new(Step.Mend, Title, Certainty.NothingYet, Judgement.Open, Phrase.Words("Nothing replaced yet."))
            {
                Hazards = [.. hazards],
                Next =
                [
                    new(
                        Phrase.Words("Write down each part and seal as it goes in"),
                        Phrase.Words("the oil to add and what to check again"),
                        2,
                        EntryKinds.PartChanged
                    ),
                ],
            };
        }
        var missing = new List<Phrase>();
        var leaking = picture.Leaks.States.Where(state => state.Leaking).Select(state => state.Spot).ToArray();
        var judgement =
            leaking.Length > 0 ? Judgement.Bad
            : mend.Oil.Balanced ? Judgement.Good
            : Judgement.CannotTell;
        Oil(record, mend, missing);
        if (Drier(mend.Drier) is { IsEmpty: false } wanted)
        {
            missing.Add(wanted);
            judgement = Worse(judgement, Judgement.CannotTell);
        }
        judgement = Worse(judgement, OilKind(record, mend.Work, hazards, missing));
        foreach (
            var seal in mend.Changed.Where(entry =>
                entry.Kind == EntryKinds.SealChanged
                && SealMaterial.Fits(record.Car.Refrigerant, entry.Fields.Text(FieldNames.Seal) ?? "") == false
            )
        )
        {
            judgement = Worse(judgement, Judgement.CannotTell);
            hazards.Add(
                StepCautions.Now(
                    Phrase.Of(
                        $"The seal at {SpotOf(seal)} is called “{seal.Says(FieldNames.Seal)}”: that rubber swells with "
                            + $"{Phrase.Verbatim(record.Car.Refrigerant)} and its oil; "
                            + $"{SealMaterial.For(record.Car.Refrigerant)} belongs there."
                    )
                )
            );
        }
        return new(
            Step.Mend,
            Title,
            missing.Count == 0 ? Certainty.Stands : Certainty.Weak,
            judgement,
            Verdict(mend, leaking)
        )
        {
            Estimates = [.. Estimates(mend)],
            Assumptions = mend.Drier.Water is null
                ? []
                :
                [
                    new(
                        Phrase.Of(
                            $"{mend.Drier.OpenEnds} open ends, air drifting through at up to half a litre a minute; "
                                + $"modelled, not measured"
                        ),
                        Phrase.Words(
                            "capped ends take up a tenth of that or less; an old drier may have been full before"
                        )
                    ),
                ],
            RestsOn = [.. mend.Work.Select(entry => entry.Id)],
            Missing = [.. missing],
            Hazards = [.. hazards],
            Next = Next(picture, leaking),
            Table = Table(mend.Changed),
        };
    }

    private static Phrase Verdict(MendPicture mend, string[] leaking)
    {
        var done = mend.Changed.IsEmpty
            ? Phrase.Words("No part or seal replaced so far.")
            : Phrase.Many(
                mend.Changed.Length,
                $"{mend.Changed.Length} part or seal replaced: {Replaced(mend.Changed)}.",
                $"{mend.Changed.Length} parts and seals replaced: {Replaced(mend.Changed)}."
            );
        if (leaking.Length > 0)
            done = done.Then(Phrase.Of($"Still to mend: {SpotWords.Names(leaking)}."));
        var oil = mend.Oil;
        return oil.TooLittle
            ? done.Then(
                Phrase.Of(
                    $"Oil: {new Measure(QuantityKind.LiquidVolume, oil.AddedM3)} of about "
                        + $"{new Measure(QuantityKind.LiquidVolume, (oil.LowM3 + oil.HighM3) / 2)}."
                )
            )
            : done;
    }

    private static Phrase Replaced(ImmutableArray<Entry> changed) =>
        Phrase.Join(
            "; ",
            changed.Select(entry =>
            {
                var what = entry.Says(entry.Kind == EntryKinds.PartChanged ? FieldNames.Part : FieldNames.Seal);
                return Phrase.Of($"{what} at {SpotOf(entry)}");
            })
        );

    private static Phrase SpotOf(Entry entry) => SpotWords.Name(entry.Fields.Text(FieldNames.Spot) ?? "");

    /// <summary>On to the pump only when every found leak is mended and the oil is there.</summary>
    private static ImmutableArray<NextAction> Next(JobPicture picture, string[] leaking)
    {
        if (leaking.Length > 0)
            return
            [
                new(
                    Phrase.Of($"Mend {SpotWords.Names(leaking)}"),
                    Phrase.Words("every leak that was found"),
                    30,
                    EntryKinds.SealChanged
                ),
            ];
        if (picture.Mend.Oil.TooLittle)
            return
            [
                new(
                    Phrase.Words("Put in the oil that is due"),
                    Phrase.Words("the compressor is oiled by what circulates"),
                    5,
                    EntryKinds.OilMoved
                ),
            ];
        return picture.Timeline.Now.Inside is Inside.Vacuum or Inside.Charge
            ? []
            :
            [
                new(
                    Phrase.Words("Pull it down with an absolute vacuum gauge at the far side"),
                    Phrase.Words("whether water is left"),
                    45,
                    EntryKinds.Pump,
                    Doing.PullsVacuum
                ),
            ];
    }

    private static IEnumerable<Estimate> Estimates(MendPicture mend)
    {
        var (oil, drier) = (mend.Oil, mend.Drier);
        if (oil.Any)
        {
            yield return Estimate.Between(
                "oil-due",
                "Oil due for parts and drains",
                QuantityKind.LiquidVolume,
                (oil.LowM3 + oil.HighM3) / 2,
                oil.LowM3,
                oil.HighM3,
                EstimateOrigin.Assumed
            );
            yield return Estimate.Between(
                "oil-added",
                "Oil added",
                QuantityKind.LiquidVolume,
                oil.AddedM3,
                oil.AddedM3,
                oil.AddedM3,
                EstimateOrigin.Measured
            );
        }
        if (drier.OpenFor is { TotalSeconds: var open })
            yield return Estimate.Between(
                "open-for",
                "Circuit open to air for",
                QuantityKind.Duration,
                open,
                open,
                open,
                EstimateOrigin.Measured
            );
        if (drier.Water is { } water)
            yield return Estimate.Between(
                "water-taken-up",
                "Water the open circuit took up",
                QuantityKind.Mass,
                Math.Sqrt(water.LeastKg * water.MostKg),
                water.LeastKg,
                water.MostKg,
                EstimateOrigin.Modelled
            );
    }

    private static Judgement Worse(Judgement one, Judgement other) =>
        one == Judgement.Bad || other == Judgement.Bad ? Judgement.Bad
        : one == Judgement.CannotTell || other == Judgement.CannotTell ? Judgement.CannotTell
        : Judgement.Good;

    /// <summary>How tight each changed joint wants to be; common practice, the maker's figure rules.</summary>
    private static FindingTable? Table(ImmutableArray<Entry> changed) =>
        changed.Length == 0
            ? null
            : new(
                "Tightening: common practice, the maker's figure rules",
                ["Spot", "Done", "If the maker gives no figure"],
                [
                    .. changed.Select(entry =>
                        ImmutableArray.Create(
                            SpotOf(entry),
                            entry.Fields.Text(FieldNames.Tightening) is { } done
                                ? Phrase.Verbatim(done)
                                : Phrase.Words("not written down"),
                            Phrase.Join(
                                "; ",
                                Tightening.For(entry.Fields.Text(FieldNames.Spot) ?? "").Take(2).Select(Line)
                            )
                        )
                    ),
                ]
            );

    private static Phrase Line(Tightening line) =>
        line is { LowNm: { } low, HighNm: { } high }
            ? Phrase.Of(
                $"{line.Joint} {Figure(low)} to {Figure(high)} N·m "
                    + $"({Figure(low / 1.3558, "0.#")} to {Figure(high / 1.3558, "0.#")} lbf·ft)"
            )
            : Phrase.Of($"{line.Joint}: {line.How}");

    private static Phrase Figure(double value, string? format = null) =>
        Phrase.Verbatim(value.ToString(format, System.Globalization.CultureInfo.InvariantCulture));

    private static Judgement OilKind(
        JobRecord record,
        ImmutableArray<Entry> work,
        List<Caution> hazards,
        List<Phrase> missing
    )
    {
        var judgement = Judgement.Good;
        bool? electric = record.Car.Compressor is { } kind ? kind == Car.Electric : null;
        foreach (
            var oil in work.Where(entry =>
                entry.Kind == EntryKinds.OilMoved && entry.Fields.Text(FieldNames.Direction) == Chosen.Added
            )
        )
        {
            var type = oil.Fields.Text(FieldNames.OilType) ?? "";
            var (refrigerant, carOil) = (record.Car.Refrigerant, record.Car.Fields.Text(FieldNames.OilType));
            var (fit, why) = OilType.IsDye(type)
                ? OilType.JudgeDye(electric, refrigerant, carOil, type)
                : OilType.Judge(electric, refrigerant, carOil, type);
            var bottle = Phrase.Verbatim(type);
            if (fit == OilFit.Stop)
            {
                judgement = Judgement.Bad;
                hazards.Add(StepCautions.Now(Phrase.Of($"Stop: {bottle}: {why}.")));
            }
            else if (fit == OilFit.Unsure)
            {
                judgement = Worse(judgement, Judgement.CannotTell);
                missing.Add(
                    Phrase.Of(
                        $"whether {bottle} belongs here: {why}. Needed is "
                            + $"{OilType.Needed(electric == true, record.Car.Refrigerant)}"
                    )
                );
            }
            else if (fit == OilFit.AskGrade)
                missing.Add(Phrase.Of($"the maker's grade of oil: {bottle} is {why}"));
        }
        return judgement;
    }

    private static void Oil(JobRecord record, MendPicture mend, List<Phrase> missing)
    {
        var oil = mend.Oil;
        if (oil.CompressorNotDrained)
            missing.Add(
                Phrase.Words("how much oil came out of the old compressor: the new one gets that and a little more")
            );
        if (oil.PourOutM3 > 0)
            missing.Add(
                Phrase.Of(
                    $"pour about {new Measure(QuantityKind.LiquidVolume, oil.PourOutM3)} out of the new compressor "
                        + $"before it is fitted: it comes filled for a whole system"
                )
            );
        if (!oil.Any)
            return;
        if (oil.TooLittle)
            missing.Add(
                Phrase.Of(
                    $"oil: {(new Measure(QuantityKind.LiquidVolume, oil.LowM3 - oil.AddedM3), new Measure(QuantityKind.LiquidVolume, oil.HighM3 - oil.AddedM3))} still due by what makers publish per part; the vehicle maker's figure rules"
                )
            );
        if (oil.TooMuch)
            missing.Add(Phrase.Words("more oil went in than parts and drains explain: too much oil costs cooling"));
        if (record.Car.Fields.Text(FieldNames.OilType) is null)
            missing.Add(
                Phrase.Of(
                    $"the oil type this compressor needs: "
                        + $"{OilType.Needed(record.Car.Compressor == Car.Electric, record.Car.Refrigerant)}"
                )
            );
    }

    private static Phrase Drier(DrierState drier) =>
        drier switch
        {
            { StillOpen: true } => Phrase.Words("when the circuit was closed again: until then it takes up water"),
            { Wanted: DrierWanted.CameOpen } => Phrase.Words(
                "a new drier: the circuit stood open to the air before it came"
            ),
            { Wanted: DrierWanted.NewCompressor } => Phrase.Words(
                "a new drier: common practice with every compressor, since chips and old oil sit in the old one"
            ),
            { Wanted: DrierWanted.Water, Water: { } water } => Phrase.Of(
                $"a new drier: the circuit took up to {Kilograms(water.MostKg)} of water, and a small drier holds "
                    + $"about {Kilograms(0.004)}"
            ),
            { Wanted: not null } => Phrase.Words(
                "a new drier: the circuit was open longer than common practice allows a drier (10 minutes)"
            ),
            _ => Phrase.Empty,
        };
}
