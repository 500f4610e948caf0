using System.Collections.Immutable;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Entries;
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
internal static class LawAndSubstance
{
    public static Finding Over(Finding finding, JobPicture picture)
    {
        var record = picture.Record;
        var place = RuleBook.Of(record.Kit.Fields.Text("jurisdiction"));
        var refrigerant = Identification.Otherwise(record, []) is null ? record.Car.Refrigerant : null;
        var law = Acts(finding.Step, record)
            .Select(act => RuleWords.Line(place, place.For(act, WhoWorks(record.Kit), refrigerant)))
            .ToList();
        if (finding.Step == Step.Recover)
            law.Add(RuleBook.AlwaysSay);
        var substance = Hands(finding.Step) is { } step
            ? SubstanceCautions.At(step, refrigerant, IsElectric(record.Car))
            : [];
        var kept = Held(finding, record, place, refrigerant);
        return finding with
        {
            Cautions =
            [
                .. substance.Where(caution => caution.Stops).Select(caution => caution.Says),
                .. finding.Cautions,
                .. law.Select(Phrase.Words),
                .. substance.Where(caution => !caution.Stops).Select(caution => caution.Says),
            ],
            Missing =
                finding.Step == Step.Recover
                    ? [.. finding.Missing, .. place.Unknown.Select(Phrase.Words)]
                    : finding.Missing,
            Next = kept,
        };
    }

    /// <summary>The next steps, each with the law's word where it keeps the act from this person.</summary>
    private static ImmutableArray<NextAction> Held(
        Finding finding,
        JobRecord record,
        PlaceRules place,
        string? refrigerant
    ) =>
        [
            .. finding.Next.Select(next =>
            {
                Act? act = next.EntryKind switch
                {
                    EntryKinds.Recovery => Act.Recover,
                    EntryKinds.ScaleReading or EntryKinds.ContainerMoved when finding.Step == Step.WeighIn =>
                        Act.Charge,
                    _ => null,
                };
                if (act is not { } what)
                    return next;
                var answer = place.For(what, WhoWorks(record.Kit), refrigerant);
                return answer.MayBeOffered(IsQualified(record, what))
                    ? next
                    : next with
                    {
                        What = Phrase.Of($"{next.What}. By law: {RuleWords.Line(place, answer)}"),
                    };
            }),
        ];

    private static IEnumerable<Act> Acts(Step step, JobRecord record) =>
        step switch
        {
            Step.LeakSearch => [Act.Check, Act.TopUp],
            Step.Recover => [Act.Recover, Act.Vent],
            Step.WeighIn when record.Kit.Containers.Any(container => container.Fields.Text("kind") == Container.Can) =>
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

    internal static Who WhoWorks(Kit kit) =>
        kit.Fields.Text("works") switch
        {
            Kit.OwnCars => Who.Owner,
            Kit.ForPay => Who.ForPay,
            _ => Who.NotSaid,
        };

    private static bool IsQualified(JobRecord record, Act act) =>
        record.Kit.Fields.Text("qualification") is { Length: > 0 }
        || (
            act == Act.Recover
            && record.Journal.OfKind(EntryKinds.Recovery).Any(entry => entry.Fields.Text("certificate") is not null)
        );

    private static bool? IsElectric(Car car) => car.Compressor is { } kind ? kind == Car.Electric : null;
}
