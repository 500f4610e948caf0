using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Quantities;
using static Tightcold.Jobs.Fields.Field;

namespace Tightcold.Jobs.Kinds;

/// <summary>What is left, taken out into a cylinder that may hold it, and weighed.</summary>
internal sealed class RecoveryKind()
    : Kind(
        EntryKinds.Recovery,
        "Refrigerant recovered",
        [
            .. Open(
                Container(FieldNames.Container, "Into which cylinder", required: true),
                Mass(FieldNames.GrossBefore, "Gross before", 0.01, 120, required: true),
                Mass(FieldNames.GrossAfter, "Gross after", 0.01, 120, required: true),
                Gauge(FieldNames.FinalPressure, "System pressure at the end")
            ),
            Gauge(
                FieldNames.PressureAfterWait,
                "System pressure after the wait",
                hint: "refrigerant keeps coming out of the oil"
            ),
            Minutes(FieldNames.Waited, "Waited", 24 * 60),
            Choice(FieldNames.Identified, "What it is", false, Chosen.AsLabelled, Chosen.MixedOrUnknown, "not checked"),
            Text(
                FieldNames.Certificate,
                "Certificate or licence",
                80,
                hint: "keep the number where the rules ask for it"
            ),
            Text(
                FieldNames.WentTo,
                "Who received it, name and address",
                120,
                hint: "where the rules ask; correct it later"
            ),
            Unread(Text(FieldNames.RuleBasis, "Rule followed", 80)),
        ]
    )
{
    public override CircuitEffect Effect => CircuitEffect.TakesOut;
    public override ImmutableArray<(Step Step, int Rank)> Steps => [(Step.Recover, 0)];

    public override Phrase Caution { get; } =
        Phrase.Words(
            "Goggles and gloves on. Never fill a cylinder above its limit: a cylinder full of liquid bursts when it "
                + "warms."
        );

    public override IEnumerable<InputProblem> Refuse(JobRecord record, Entry entry)
    {
        if (entry.Fields.Si(FieldNames.GrossAfter) < entry.Fields.Si(FieldNames.GrossBefore))
            yield return InputProblem.Of(
                FieldNames.GrossAfter,
                Typed(entry, FieldNames.GrossAfter),
                $"a cylinder cannot get lighter while refrigerant goes in; "
                    + $"{Phrase.Verbatim(Typed(entry, FieldNames.GrossBefore))} stood before"
            );
        if (record.KitAt(entry.ObservedAt).Find(entry.Fields.Text(FieldNames.Container) ?? "") is not { } cylinder)
            yield break;
        var identified = entry.Fields.Text(FieldNames.Identified);
        if (!cylinder.IsRecovery)
            yield return Not(
                cylinder.Name,
                $"a disposable can or cylinder is never refilled; use a refillable recovery cylinder within its test "
                    + $"date"
            );
        else if (identified == Chosen.MixedOrUnknown && cylinder.Refrigerant != Chosen.MixedOrUnknown)
            yield return Not(
                cylinder.Name,
                $"it is for {cylinder.RefrigerantSays}; what is mixed or unknown goes into a cylinder of its own, "
                    + $"marked so, and is never mixed into a clean one"
            );
        else if (
            identified != Chosen.AsLabelled
            && cylinder.Refrigerant != Chosen.MixedOrUnknown
            && Identifier.SaidOtherwise(record, entry) is { } said
        )
            yield return Not(
                cylinder.Name,
                $"an identifier said “{said}” of what is in this car: it goes into a cylinder of its own, marked "
                    + $"mixed or unknown, and is never mixed into a clean one"
            );
        else if (cylinder.Refrigerant != record.Car.Refrigerant && cylinder.Refrigerant != Chosen.MixedOrUnknown)
            yield return Not(
                cylinder.Name,
                $"it is for {cylinder.RefrigerantSays} and this car is labelled "
                    + $"{Phrase.Verbatim(record.Car.Refrigerant)}; refrigerants are never mixed"
            );
    }

    private static InputProblem Not(string cylinder, Phrase.Handler why) =>
        InputProblem.Of(FieldNames.Container, cylinder, why);
}
