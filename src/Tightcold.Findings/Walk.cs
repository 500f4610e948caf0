using System.Collections.Immutable;
using Tightcold.Findings.Steps;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Picture;
using Tightcold.Picture.Circuit;
using Tightcold.Picture.Now;

namespace Tightcold.Findings;

/// <summary>All findings of a job, in the order of the trade: words for its picture, and nothing that the picture does
/// not hold. The same record gives the same findings, bit for bit.</summary>
public static class Walk
{
    public static ImmutableArray<Finding> Of(JobRecord record) => Of(new JobPicture(record));

    public static ImmutableArray<Finding> Of(JobPicture picture) =>
        [.. Enum.GetValues<Step>().Select(step => Of(step, picture))];

    /// <summary>One finding alone; what the others would weigh is left alone.</summary>
    public static Finding Of(Step step, JobPicture picture)
    {
        ArgumentNullException.ThrowIfNull(picture);
        return Allowed(
            LawAndSubstance.Over(
                step switch
                {
                    Step.ComplaintAndWeather => ComplaintFinding.Of(picture),
                    Step.StandingPressure => StandingFinding.Of(picture),
                    Step.RunningPressures => RunningFinding.Of(picture),
                    Step.WhatIsWrong => DiagnosisFinding.Of(picture),
                    Step.LeakSearch => LeakFinding.Of(picture),
                    Step.Recover => RecoverFinding.Of(picture),
                    Step.Mend => MendFinding.Of(picture),
                    Step.PumpDown => PumpDownFinding.Of(picture),
                    Step.Hold => HoldFinding.Of(picture),
                    Step.WeighIn => WeighInFinding.Of(picture),
                    Step.ProveCold => ColdFinding.Of(picture),
                    _ => LedgerFinding.Of(picture),
                },
                picture
            ),
            picture
        );
    }

    /// <summary>What the circuit's state forbids is not advised, and a step that has nothing yet keeps quiet until it
    /// is its turn: one job, one thing to do.</summary>
    private static Finding Allowed(Finding finding, JobPicture picture)
    {
        var now = picture.Now;
        if (now.Kind is NowKind.Done)
            return finding with { Next = [] };
        if (finding.Certainty == Certainty.NothingYet && finding.Step != now.Step)
            return finding with { Next = [], Missing = [] };
        return finding with { Next = [.. finding.Next.Where(action => IsAllowed(action.Does, picture.Timeline.Now))] };
    }

    internal static bool IsAllowed(Doing does, CircuitState state) =>
        does switch
        {
            Doing.RunsCompressor => state is { HoldsRefrigerant: true, ChargedOnto: Foreign.Nothing },
            Doing.FillsIn => state.Inside is Inside.Vacuum or Inside.Charge && state.ChargedOnto == Foreign.Nothing,
            Doing.PullsVacuum => !state.HoldsRefrigerant && state.Open.IsEmpty,
            Doing.TakesOut => state.HoldsRefrigerant || state.Inside == Inside.Recovered,
            _ => true,
        };
}
