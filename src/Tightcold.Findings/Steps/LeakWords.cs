using System.Collections.Immutable;
using System.Globalization;
using Tightcold.Diagnosis.Leaks;
using Tightcold.Diagnosis.Tightness;
using Tightcold.Jobs.Entries;
using Tightcold.Picture;
using Tightcold.Picture.Leaks;
using Tightcold.Picture.Tight;
using Tightcold.Quantities;
using static Tightcold.Picture.Pressures.Evidence;

namespace Tightcold.Findings.Steps;

/// <summary>A leak belief in the words of the trade.</summary>
internal static class LeakWords
{
    public static Phrase Why(LeakView view, TightPicture tight, int open)
    {
        var belief = view.Belief;
        var another = Phrase.Of($"That another leak, large or small, remains unfound: {Odds(belief.AnotherRemains)}.");
        // Beside the proof the other number is asked after at once: most leaks that remain are slow.
        if (tight.Outcome is TightOutcome.Proven or TightOutcome.Likely)
            another = another.Then(
                Phrase.Of($"That any leak takes the cooling {TightWords.Within(tight)}: {Odds(1 - tight.Odds)}.")
            );
        if (open > 0)
            another = another.Then(
                Phrase.Many(
                    open,
                    $"One found leak does not mean the only one: {open} spot has not been checked by a test that "
                        + $"could see.",
                    $"One found leak does not mean the only one: {open} spots have not been checked by a test that "
                        + $"could see."
                )
            );
        if (
            view.Losses.LostKg is not { } lost
            || !belief.Spots.Any(spot => spot.Spot.Found || spot.Spot.MendedAt is not null)
        )
            return another;
        var explained = belief.ExplainedByFound;
        return another.Then(
            explained.P95 < 0.7
                ? Phrase.Of(
                    $"What was found explains only {(Share(explained.P05), Share(explained.P95))} of the "
                        + $"{Kilograms(lost)} that went: another is needed to explain the rest."
                )
                : Phrase.Of(
                    $"What was found explains {(Share(explained.P05), Share(explained.P95))} of the {Kilograms(lost)} "
                        + $"that went."
                )
        );
    }

    public static ImmutableArray<Estimate> Estimates(JobPicture picture)
    {
        var view = picture.Leaks;
        var belief = view.Belief;
        var estimates = ImmutableArray.CreateBuilder<Estimate>();
        if (Rate("total-leak", "Lost by all spots together, before repairs", belief.Before) is { } before)
            estimates.Add(before);
        if (
            belief.Spots.Any(spot => spot.Spot.MendedAt is not null)
            && Rate("remaining-leak", "By all spots as they are now", belief.Now) is { } now
        )
            estimates.Add(now);
        var another = Math.Clamp(belief.AnotherRemains, 0.01, 0.99);
        estimates.Add(
            Estimate.Between(
                "another-remains",
                "Odds that another leak, large or small, remains unfound",
                QuantityKind.Ratio,
                another,
                another,
                another,
                EstimateOrigin.Modelled
            )
        );
        var times = view.Forecast.Seconds;
        estimates.Add(
            Estimate.Between(
                "months-to-warm",
                "Months until the charge is too low to cool well, if filled and left as it is",
                QuantityKind.Number,
                Months(times.P50),
                Months(times.P05),
                Months(times.P95),
                EstimateOrigin.Modelled
            )
        );
        if (view.Losses.LostKg is { } lost and > 0)
        {
            var sigma = view.Losses.SigmaKg;
            estimates.Add(
                Estimate.Normal(
                    "escaped",
                    "Escaped since the last known charge",
                    QuantityKind.Mass,
                    lost,
                    sigma,
                    EstimateOrigin.Computed,
                    0
                )
            );
        }
        return estimates.ToImmutable();
    }

    private static double Months(double seconds) => seconds / (LeakForecast.Year / 12);

    /// <summary>Beyond twenty fillings a year nothing is known but that it is large.</summary>
    private const double LargeKgPerS = 10.0 / (365.25 * 86400);

    /// <summary>From hardly anything to ten kilograms a year is no figure; the test that failed tells its
    /// own.</summary>
    private const double LittleKgPerS = 0.1 / (365.25 * 86400);

    private static Estimate? Rate(string key, [Said] string name, LeakQuantiles rate) =>
        rate.P95 <= LargeKgPerS
            ? Estimate.Between(key, name, QuantityKind.LeakRate, rate.P50, rate.P05, rate.P95, EstimateOrigin.Modelled)
        : rate.P05 >= LittleKgPerS
            ? Estimate.AtLeast(key, name, QuantityKind.LeakRate, rate.P05, EstimateOrigin.Modelled)
        : null;

    public static ImmutableArray<Assumption> Assumptions(JobPicture picture)
    {
        var view = picture.Leaks;
        var month = picture.NextCheckAt.ToString("yyyy-MM", CultureInfo.InvariantCulture);
        return
        [
            new(
                Phrase.Words(
                    "What each test shows of a leak, and how often each kind of spot leaks, is assumed from practice"
                ),
                Phrase.Words("the odds order the spots well; take their size as a guide")
            ),
            new(
                view.Losses.Basis,
                Phrase.Words(
                    "the total rate follows this time one to one; write down earlier charges and top-ups to sharpen it"
                )
            ),
            picture.Record.LookAgainAt is null
                ? new(
                    Phrase.Of($"Look again by {Phrase.Verbatim(month)}"),
                    Phrase.Of(
                        $"by then one such car in ten has fallen below {Kilograms(view.SufferingKg)}, where cooling "
                            + $"suffers"
                    )
                )
                : new(Phrase.Words("The next check is on the day that somebody set"), Phrase.Empty),
        ];
    }

    /// <summary>The two best checks, as things to do.</summary>
    public static IEnumerable<NextAction> Checks(LeakView view)
    {
        foreach (var group in view.Checks.Take(4).GroupBy(check => check.Kind).Take(2))
        {
            var spots = SpotWords.Names(group.Select(check => check.Spot));
            var minutes = (int)Math.Ceiling(group.Sum(check => check.Minutes));
            yield return new(
                Phrase.Of($"Check next: {spots} ({group.Key.Name})"),
                Phrase.Of($"most for its minutes: {Odds(group.Max(check => check.Positive))} to show something"),
                minutes,
                EntryKinds.LeakCheck
            )
            {
                Known = [("spot", group.First().Spot), ("test", group.Key.Key)],
            };
        }
    }

    public static Phrase Remark(Phrase remark, SpotTightness belief) =>
        belief.OpenedOnce > 0.25 && belief.Spot.Tests.Length > 0
            ? remark.Then(
                Phrase.Of(
                    $"the residue may come from one opening ({Odds(belief.OpenedOnce)}): clean it, cover it and try "
                        + $"the detector; gas there means that it leaks"
                )
            )
            : remark;
}
