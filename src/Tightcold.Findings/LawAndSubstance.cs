using System.Collections.Immutable;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Kits;
using Tightcold.Picture;
using Tightcold.Picture.Standing;
using Tightcold.Procedures.Rules;
using Tightcold.Procedures.Substances;
using Tightcold.Quantities;

namespace Tightcold.Findings;

/// <summary>Puts the rule of the place where its act is, and what the substance and the drive ask for at each step;
/// what the law keeps from this person is never a next step without saying so.</summary>
public static class LawAndSubstance
{
    internal static Finding Over(Finding finding, JobPicture picture)
    {
        var record = picture.Record;
        var place = PlaceOf(record);
        var substance = Hands(finding.Step) is { } step
            ? SubstanceCautions.At(step, RefrigerantOf(record), IsElectric(record.Car))
            : [];
        return finding with
        {
            Hazards = Ordered(finding.Hazards, substance),
            Law = LawOn(Acts(finding.Step, record), record),
            Missing = finding.Step == Step.Recover ? [.. finding.Missing, .. place.Unknown] : finding.Missing,
            Next = [.. finding.Next.Select(next => Held(next, picture, finding.Step))],
        };
    }

    /// <summary>The rules of where the job is done, as the kit of its last entry says.</summary>
    public static PlaceRules PlaceOf(JobRecord record)
    {
        ArgumentNullException.ThrowIfNull(record);
        return RuleBook.Of(record.Kit.Fields.Text(FieldNames.Jurisdiction));
    }

    /// <summary>What the law says of these acts to this person: what keeps from one first; no line twice.</summary>
    public static ImmutableArray<LawLine> LawOn(IEnumerable<Act> acts, JobRecord record)
    {
        var (place, refrigerant) = (PlaceOf(record), RefrigerantOf(record));
        return
        [
            .. acts.Select(act => place.For(act, WhoWorks(record.Kit), refrigerant))
                .DistinctBy(answer => (object?)answer.Line ?? answer.Act)
                .OrderByDescending(answer => answer.Act != Act.Vent && Keeps(answer, record))
                .Select(answer => new LawLine(
                    answer.Act,
                    RuleWords.Line(place, answer),
                    answer.Line is { } line ? RuleWords.ReadOn(line) : Phrase.Empty,
                    Keeps(answer, record)
                )),
        ];
    }

    /// <summary>What can hurt, and what the law says, where an entry of this kind is about to be taken.</summary>
    public static (ImmutableArray<Caution> Hazards, ImmutableArray<LawLine> Law) At(string kind, JobRecord record)
    {
        ArgumentNullException.ThrowIfNull(record);
        var (hands, acts) = ((WorkStep?, Act[]))(
            kind switch
            {
                EntryKinds.StandingReading or EntryKinds.RunningReading => (WorkStep.Gauges, []),
                EntryKinds.LeakCheck => (WorkStep.LeakSearch, [Act.Check]),
                EntryKinds.Recovery => (WorkStep.Recover, [Act.Recover]),
                EntryKinds.Opened or EntryKinds.PartChanged => (WorkStep.Mend, []),
                EntryKinds.Pump => (WorkStep.PumpDown, []),
                EntryKinds.PressureTest => (WorkStep.Holding, []),
                EntryKinds.ContainerMoved => (WorkStep.Charge, [Act.Charge, Act.UseCan]),
                EntryKinds.Purge => (WorkStep.Charge, [Act.Vent]),
                _ => (null, []),
            }
        );
        return (
            hands is { } step
                ? Ordered([], SubstanceCautions.At(step, RefrigerantOf(record), IsElectric(record.Car)))
                : [],
            LawOn(acts, record)
        );
    }

    /// <summary>A next step with the law's word where it keeps the act from this person.</summary>
    internal static NextAction Held(NextAction next, JobPicture picture, Step step)
    {
        var kept = LawOn(Acts(next, picture, step), picture.Record).Where(line => line.Keeps).ToArray();
        return kept.Length == 0
            ? next
            : next with
            {
                What = kept.Aggregate(next.What, (what, line) => Phrase.Of($"{what}. By law: {line.Says}")),
            };
    }

    /// <summary>The worst first; among equals high voltage, then fire, then what the step brings itself. A hazard that
    /// step and substance both name is said once, in the substance's words.</summary>
    private static ImmutableArray<Caution> Ordered(ImmutableArray<Caution> own, ImmutableArray<Caution> substance) =>
        [
            .. own.Where(caution => substance.All(other => other.Key != caution.Key))
                .Concat(substance)
                .DistinctBy(caution => caution.Key)
                .OrderBy(caution => caution.Danger)
                .ThenBy(caution =>
                    caution.Key switch
                    {
                        "identify" or "high-pressure" => 0,
                        "high-voltage" => 1,
                        "no-ignition" => 2,
                        _ => 3,
                    }
                ),
        ];

    private static bool Keeps(RuleAnswer answer, JobRecord record) =>
        !answer.MayBeOffered(IsQualified(record, answer.Act));

    private static IEnumerable<Act> Acts(NextAction next, JobPicture picture, Step step)
    {
        if (next.Does == Doing.TakesOut || next.EntryKind == EntryKinds.Recovery)
            yield return Act.Recover;
        if (
            next.Does != Doing.FillsIn
            && !(step == Step.WeighIn && next.EntryKind is EntryKinds.ScaleReading or EntryKinds.ContainerMoved)
        )
            yield break;
        yield return Act.Charge;
        var from = picture.WeighIn.Container ?? picture.WeighIn.Plan?.Steps.FirstOrDefault().Container;
        if (from is not null && picture.Record.Kit.Find(from)?.Kind == Container.Can)
            yield return Act.UseCan;
        if (picture.Leaks.States.Any(state => state.Leaking))
            yield return Act.TopUp;
    }

    private static string? RefrigerantOf(JobRecord record) =>
        Identification.Otherwise(record, []) is null ? record.Car.Refrigerant : null;

    private static IEnumerable<Act> Acts(Step step, JobRecord record) =>
        step switch
        {
            Step.LeakSearch => [Act.Check, Act.TopUp],
            Step.Recover => [Act.Recover, Act.Vent],
            Step.WeighIn
                when record.Kit.Containers.Any(container => container.Fields.Text(FieldNames.Kind) == Container.Can) =>
            [
                Act.Charge,
                Act.Buy,
                Act.UseCan,
                Act.TopUp,
            ],
            Step.WeighIn => [Act.Charge, Act.Buy, Act.TopUp],
            Step.Ledger => [Act.Write, Act.Own],
            _ => [],
        };

    private static WorkStep? Hands(Step step) =>
        step switch
        {
            Step.StandingPressure or Step.RunningPressures => WorkStep.Gauges,
            Step.LeakSearch => WorkStep.LeakSearch,
            Step.Recover => WorkStep.Recover,
            Step.Mend => WorkStep.Mend,
            Step.PumpDown => WorkStep.PumpDown,
            Step.Hold => WorkStep.Holding,
            Step.WeighIn => WorkStep.Charge,
            Step.ProveCold => WorkStep.Run,
            Step.Ledger => WorkStep.Store,
            _ => null,
        };

    public static Who WhoWorks(Kit kit)
    {
        ArgumentNullException.ThrowIfNull(kit);
        return kit.Fields.Text(FieldNames.Works) switch
        {
            Kit.OwnCars => Who.Owner,
            Kit.ForPay => Who.ForPay,
            _ => Who.NotSaid,
        };
    }

    private static bool IsQualified(JobRecord record, Act act) =>
        record.Kit.Fields.Text(FieldNames.Qualification) is { Length: > 0 }
        || (
            act == Act.Recover
            && record
                .Journal.OfKind(EntryKinds.Recovery)
                .Any(entry => entry.Fields.Text(FieldNames.Certificate) is not null)
        );

    private static bool? IsElectric(Car car) => car.Compressor is { } kind ? kind == Car.Electric : null;
}
