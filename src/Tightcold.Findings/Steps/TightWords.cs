using System.Collections.Immutable;
using Tightcold.Diagnosis.Tightness;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.LeakTests;
using Tightcold.Picture;
using Tightcold.Picture.Pressures;
using Tightcold.Picture.Tight;
using Tightcold.Quantities;
using static Tightcold.Picture.Pressures.Evidence;

namespace Tightcold.Findings.Steps;

/// <summary>The first proof in words; one sentence for it, the same on every page.</summary>
public static class TightWords
{
    /// <summary>“It will still cool in two summers: 93 % sure.”</summary>
    public static Phrase Sure(TightPicture tight)
    {
        ArgumentNullException.ThrowIfNull(tight);
        return Phrase.Of($"It will still cool {When(tight)}: {Odds(tight.Odds)} sure.");
    }

    /// <summary>“in two summers”.</summary>
    public static Phrase When(TightPicture tight)
    {
        ArgumentNullException.ThrowIfNull(tight);
        var (months, summers) = Horizon(tight);
        return tight.Years switch
        {
            < 0.75 => Phrase.Many(months, $"in {months} month", $"in {months} months"),
            < 1.5 => Phrase.Words("next summer"),
            < 2.5 => Phrase.Words("in two summers"),
            _ => Phrase.Many(summers, $"in {summers} summer", $"in {summers} summers"),
        };
    }

    /// <summary>“within two summers”.</summary>
    public static Phrase Within(TightPicture tight)
    {
        ArgumentNullException.ThrowIfNull(tight);
        var (months, summers) = Horizon(tight);
        return tight.Years switch
        {
            < 0.75 => Phrase.Many(months, $"within {months} month", $"within {months} months"),
            < 1.5 => Phrase.Words("before next summer"),
            < 2.5 => Phrase.Words("within two summers"),
            _ => Phrase.Many(summers, $"within {summers} summer", $"within {summers} summers"),
        };
    }

    private static (int Months, int Summers) Horizon(TightPicture tight) =>
        ((int)Math.Round(12 * tight.Years), (int)Math.Round(tight.Years));

    /// <summary>What stands most in the way.</summary>
    public static Phrase Doubt(TightPicture tight)
    {
        ArgumentNullException.ThrowIfNull(tight);
        var spot = SpotWords.Name(tight.Belief.DoubtSpot ?? "");
        return tight.Belief.Doubt switch
        {
            TightnessDoubt.FailedTest => Phrase.Words("A test failed, and nothing was mended since."),
            TightnessDoubt.FoundNotMended => Phrase.Of($"{spot} was found leaking and is not mended."),
            TightnessDoubt.NothingTested => Phrase.Words("Nothing was tested since the last repair."),
            TightnessDoubt.Spot => Phrase.Of($"Largest doubt: {spot}."),
            TightnessDoubt.Elsewhere => Phrase.Words("Largest doubt: a place that is not on the list."),
            TightnessDoubt.RepairMayNotHold => Phrase.Of($"Largest doubt: whether the repair at {spot} holds."),
            TightnessDoubt.Reassembly => Phrase.Words("Largest doubt: what was undone and closed again."),
            _ => Phrase.Empty,
        };
    }

    public static NextAction Nitrogen { get; } =
        new(
            Phrase.Words("Dry nitrogen to the rated test pressure, soap on every joint"),
            Phrase.Words("leaks that push outward; bubbles show where"),
            30,
            EntryKinds.LeakSearch
        );

    /// <summary>What would prove it, best first; the same on the line on top and at the step.</summary>
    public static ImmutableArray<NextAction> Further(JobPicture picture)
    {
        ArgumentNullException.ThrowIfNull(picture);
        var tests = picture.Tight.Belief.Tests.Where(test => test.SinceLastChange).ToArray();
        if (
            tests.Length > 0
            && tests.All(test =>
                test.Kind == TightnessTestKind.VacuumHold && test.Quality.HasFlag(TestQuality.DialOnly)
            )
        )
            return WithoutAVacuumGauge(picture);
        NextAction[] better = [.. picture.Tight.Belief.Next.Take(2).Select(proposal => Action(picture, proposal))];
        return better.Length > 0 ? [.. better] : [Nitrogen];
    }

    /// <summary>Odds from which hoses and gauge set are looked at before the car is taken apart.</summary>
    private const double HosesFrom = 0.2;

    /// <summary>A test failed: where is it? Soap under nitrogen first; once that was round and found nothing, the hoses
    /// alone, and then the look that finds most a minute.</summary>
    public static ImmutableArray<NextAction> FindIt(JobPicture picture)
    {
        ArgumentNullException.ThrowIfNull(picture);
        var hoses = new NextAction(
            Phrase.Words("Cap the service ports and test the hoses and the gauge set alone"),
            Phrase.Words("whether the hose leaks, not the car"),
            10,
            EntryKinds.VacuumReading
        );
        var failedAt = picture
            .Timeline.OfKind(EntryKinds.PressureTest)
            .Concat(picture.Timeline.OfKind(EntryKinds.VacuumReading))
            .Select(entry => (DateTimeOffset?)entry.ObservedAt)
            .Min();
        var soaped = picture
            .Timeline.OfKind(EntryKinds.LeakSearch)
            .Any(search =>
                search.ObservedAt >= failedAt && search.Fields.Text(FieldNames.Test) == LeakTestKind.NitrogenAndSoap.Key
            );
        if (!soaped)
            return [Nitrogen, hoses];
        var looks = LeakWords.Checks(picture.Leaks).ToArray();
        return picture.Tight.Belief.HosesLeak >= HosesFrom ? [hoses, .. looks] : [.. looks, hoses];
    }

    /// <summary>The way to a proof where no vacuum gauge can give one: nitrogen at a pressure and for a time that this
    /// gauge and this volume ask for, soap on every joint at that pressure, a detector once it is charged, and the
    /// standing pressure again in a week.</summary>
    public static ImmutableArray<NextAction> WithoutAVacuumGauge(JobPicture picture)
    {
        ArgumentNullException.ThrowIfNull(picture);
        var kit = picture.Record.Kit;
        var means = TightnessMeans.None with
        {
            NitrogenStepPa = kit.Fields.Si(FieldNames.HighGaugeStep) ?? kit.HighGaugePlusMinusPa / 2,
        };
        var nitrogen = picture.Tight.Belief.NextWith(means).FirstOrDefault();
        return
        [
            nitrogen is null ? Nitrogen : Action(picture, nitrogen),
            new(
                Phrase.Words("At that pressure, soap on every joint; write it down as one search"),
                Phrase.Words("a leak pushes outward there, which a vacuum can pull shut"),
                20,
                EntryKinds.LeakSearch
            ),
            new(
                Phrase.Words("Once it is charged, the detector round the circuit, and the standing pressure in a week"),
                Phrase.Words("what no dial can show"),
                30,
                EntryKinds.LeakSearch
            ),
        ];
    }

    /// <summary>A test that would make it surer, as a thing to do.</summary>
    public static NextAction Action(JobPicture picture, TightnessProposal proposal)
    {
        ArgumentNullException.ThrowIfNull(picture);
        ArgumentNullException.ThrowIfNull(proposal);
        var minutes = (int)Math.Ceiling(proposal.Minutes);
        var tells = Phrase.Of($"passed, it would be {Odds(proposal.OddsIfPassed)} sure");
        var look = proposal.Look is { } kind ? kind.Name : "";
        var now = picture.Record.Journal.Standing is [.., var last] ? last.ObservedAt : picture.Record.Job.OpenedAt;
        var air = AirPressure.At(picture.Record, now).Pascals;
        return proposal.Kind switch
        {
            TightnessTestKind.NitrogenDecay => new(
                Phrase.Of(
                    $"Dry nitrogen to {Gauges.Shown(proposal.PressurePa ?? 1.1e6, air)}, read again after "
                        + $"{Measure.Seconds(proposal.WaitSeconds)} with the temperature; below the maker's test "
                        + $"pressure"
                ),
                tells,
                minutes,
                EntryKinds.PressureTest
            ),
            TightnessTestKind.VacuumHold => new(
                Phrase.Of($"Hold the vacuum for {Measure.Seconds(proposal.WaitSeconds)}, with temperatures"),
                tells,
                minutes,
                EntryKinds.VacuumReading,
                Doing.PullsVacuum
            ),
            TightnessTestKind.StandingAgain => new(
                Phrase.Words("Read the standing pressure again in a week"),
                tells,
                minutes,
                EntryKinds.StandingReading
            ),
            TightnessTestKind.SpotCheck => new(
                Phrase.Of($"Check {SpotWords.Name(proposal.Spot ?? "")}: {look}"),
                tells,
                minutes,
                EntryKinds.LeakCheck
            ),
            _ => new(Phrase.Of($"All joints: {look}"), tells, minutes, EntryKinds.LeakSearch),
        };
    }
}
