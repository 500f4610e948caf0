using System.Collections.Immutable;
using Tightcold.Picture.Standing;
using Tightcold.Quantities;

namespace Tightcold.Picture.Books;

/// <summary>A car over the years: what each visit found and left, and how fast it lost refrigerant in
/// between.</summary>
/// <param name="Visits">The earliest first.</param>
/// <param name="Intervals">Between two visits of which the first weighed in and the second found a mass.</param>
public sealed record CarHistory(ImmutableArray<CarHistory.Visit> Visits, ImmutableArray<CarHistory.Interval> Intervals)
{
    private const double YearS = 365.25 * 86400;

    /// <param name="FoundKg">In the car when it came; null when nothing told.</param>
    /// <param name="LeftKg">In it when it went; null when nothing was weighed in.</param>
    public readonly record struct Visit(
        int Job,
        DateTimeOffset Came,
        DateTimeOffset Went,
        string Complaint,
        double? FoundKg,
        double FoundSigmaKg,
        double? LeftKg,
        double LeftSigmaKg
    );

    /// <param name="Rate">Loss in between, kg/s; shown as grams a year.</param>
    public readonly record struct Interval(int FromJob, int ToJob, double Years, Estimate Rate);

    /// <summary>The latest interval's loss, or null without two such visits.</summary>
    public Estimate? LeakRate => Intervals.Length > 0 ? Intervals[^1].Rate : null;

    /// <param name="jobs">All jobs of one car, in any order.</param>
    public static CarHistory Of(IEnumerable<JobPicture> jobs)
    {
        Visit[] visits =
        [
            .. jobs.Where(job => job.Record.Journal.Standing.Length > 0).Select(Look).OrderBy(visit => visit.Came),
        ];
        var intervals = ImmutableArray.CreateBuilder<Interval>();
        for (var i = 1; i < visits.Length; i++)
        {
            var (before, after) = (visits[i - 1], visits[i]);
            var seconds = (after.Came - before.Went).TotalSeconds;
            // A week or less: the error of two masses drowns any leak.
            if (before.LeftKg is not { } left || after.FoundKg is not { } found || seconds < 7 * 86400)
                continue;
            var sigma = Math.Sqrt(before.LeftSigmaKg * before.LeftSigmaKg + after.FoundSigmaKg * after.FoundSigmaKg);
            intervals.Add(
                new(
                    before.Job,
                    after.Job,
                    seconds / YearS,
                    Estimate.Normal(
                        $"leak-rate-{before.Job}-{after.Job}",
                        "Lost between the visits",
                        QuantityKind.LeakRate,
                        Math.Max(0, left - found) / seconds,
                        sigma / seconds,
                        floor: 0
                    )
                )
            );
        }
        return new([.. visits], intervals.ToImmutable());
    }

    private static Visit Look(JobPicture job)
    {
        var (record, balance) = (job.Record, job.Mass);
        var standing = record.Journal.Standing;
        var (found, foundSigma) = Found(job);
        return new(
            record.Job.Number,
            standing[0].ObservedAt,
            standing[^1].ObservedAt,
            record.Job.Complaint,
            found,
            foundSigma,
            balance is { SystemKnown: true, DrawnKg: > 0 } ? balance.SystemKg : null,
            Math.Sqrt(balance.SystemVarianceKg2)
        );
    }

    /// <summary>What was recovered before anything went in and what stayed behind, else what the standing pressure
    /// says.</summary>
    private static (double?, double) Found(JobPicture job)
    {
        if (job.Recovery is { RecoveredKg: > 0 } recovery)
        {
            // A recovery leaves some grams in vapour and oil behind.
            var (least, most) = recovery.End is { } end ? (end.LeftLeastKg, end.LeftMostKg) : (0, 0.020);
            return (
                recovery.RecoveredKg + (0.5 * (least + most)),
                Math.Sqrt(25e-6 + Math.Pow((most - least) / 3.3, 2))
            );
        }
        if (job.Came.Says == StandingSays.OpenToAir)
            return (0, 0.005);
        return job.Came.Left is { } left ? (left.MeanKg, left.SigmaKg) : (null, 0);
    }
}
