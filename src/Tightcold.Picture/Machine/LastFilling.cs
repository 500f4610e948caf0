using System.Collections.Immutable;
using Tightcold.Diagnosis.Leaks;
using Tightcold.Diagnosis.Priors;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Picture.Books;
using Tightcold.Picture.Leaks;
using Tightcold.Picture.Tight;

namespace Tightcold.Picture.Machine;

/// <summary>The last filling before a job: what an earlier job of the car left in it, or what somebody
/// remembers.</summary>
/// <param name="History">For the diagnosis.</param>
/// <param name="Job">Number of the job that filled it; null when it is remembered.</param>
/// <param name="Entries">Of this job, that tell of it.</param>
public sealed record LastFilling(ChargeHistory History, int? Job, ImmutableArray<Guid> Entries)
{
    private const double Day = 86400;

    // A top-up of which nobody knows the mass; half of a can, common practice.
    private const double UsualTopUpKg = 0.15;

    // What was topped up replaces what was lost only roughly; relative, assumed.
    private const double TopUpSpread = 0.45;

    // What a scale says of a charge that stayed in, over the label's; LeakLosses adds the same 10 g.
    private const double LeastShareSigma = 0.03;

    public static LastFilling? Of(JobPicture picture)
    {
        ArgumentNullException.ThrowIfNull(picture);
        var record = picture.Record;
        var written = Written(picture);
        var told = record
            .Journal.OfKind(EntryKinds.EarlierCharge)
            .Select(entry =>
                (Entry: entry, Time: LeakLosses.Remembered(entry.Fields.Number(FieldNames.MonthsAgo)!.Value))
            )
            .Where(one => written is null || one.Time.Seconds < written.History.Seconds)
            .OrderBy(one => one.Time.Seconds)
            .ThenBy(one => one.Entry.Id)
            .ToArray();
        if (told.Length == 0)
            return written;
        var (last, time) = told[0];
        var how = last.Fields.Text(FieldNames.Filled) switch
        {
            Chosen.FullByWeight => FilledHow.ByWeight,
            Chosen.ToppedUp => FilledHow.ToppedUp,
            _ => FilledHow.NotWeighed,
        };
        var history = new ChargeHistory(how, time.Seconds, time.Spread, Remembered: true);
        if (how != FilledHow.ToppedUp)
            return new(history, null, [last.Id]);
        var toppedUp = told.TakeWhile(one => one.Entry.Fields.Text(FieldNames.Filled) == Chosen.ToppedUp).ToArray();
        var full =
            toppedUp.Length < told.Length ? told[toppedUp.Length].Time.Seconds
            : written is { History.How: FilledHow.ByWeight } ? written.History.Seconds
            : (double?)null;
        // What had to be put in tells how fast it goes.
        if (
            full is { } before
            && before > time.Seconds
            && toppedUp.Sum(one => one.Entry.Fields.Si(FieldNames.Mass) ?? UsualTopUpKg) is var lost
        )
            history = history with
            {
                LostBefore = new(
                    lost,
                    TopUpSpread * lost,
                    before - time.Seconds,
                    time.Spread,
                    LossObservation.YearDuty,
                    false
                ),
            };
        return new(history, null, [.. toppedUp.Select(one => one.Entry.Id)]);
    }

    /// <summary>From the latest earlier job that moved refrigerant; one that only looked changes nothing.</summary>
    private static LastFilling? Written(JobPicture picture)
    {
        var record = picture.Record;
        var jobs = picture.EarlierPictures;
        if (jobs.LastOrDefault(job => job.Record.Journal.Standing.Any(Moves)) is not { } job)
            return null;
        var balance = job.Mass;
        // Left open, or empty: whoever filled it then did not write it down.
        if (balance.DrawnKg <= 0)
            return null;
        var seconds = Math.Max(
            Day,
            (record.Job.OpenedAt - job.Record.Journal.Standing.Last(Moves).ObservedAt).TotalSeconds
        );
        if (!balance.SystemKnown)
            return new(new(FilledHow.ToppedUp, seconds, 0, Remembered: false), job.Record.Job.Number, []);
        var label = record.Car.LabelCharge?.Kilograms;
        return new(
            new(FilledHow.ByWeight, seconds, 0, Remembered: false)
            {
                Left = label is { } full
                    ? (
                        balance.SystemKg / full,
                        Math.Max(LeastShareSigma, Math.Sqrt(balance.SystemVarianceKg2 + 1e-4) / full)
                    )
                    : null,
                ProvenTight = job.Tight.Outcome == TightOutcome.Proven,
                LostBefore = LostBefore(job, jobs),
            },
            job.Record.Job.Number,
            []
        );
    }

    /// <summary>What it had lost when that job found it, if nothing was mended there.</summary>
    private static LossObservation? LostBefore(JobPicture job, ImmutableArray<JobPicture> jobs)
    {
        if (job.Record.Journal.Standing.Any(entry => entry.Kind is EntryKinds.PartChanged or EntryKinds.SealChanged))
            return null;
        var visits = CarHistory.Of(jobs.Where(one => one.Record.Job.OpenedAt <= job.Record.Job.OpenedAt)).Visits;
        if (visits is not [.., { LeftKg: { } left } before, { FoundKg: { } found } after])
            return null;
        var seconds = (after.Came - before.Went).TotalSeconds;
        var sigma = Math.Sqrt((before.LeftSigmaKg * before.LeftSigmaKg) + (after.FoundSigmaKg * after.FoundSigmaKg));
        return seconds < 7 * Day || !(sigma > 0)
            ? null
            : new(left - found, sigma, seconds, 0, LossObservation.YearDuty, false);
    }

    private static bool Moves(Entry entry) =>
        entry.Kind is EntryKinds.Recovery or EntryKinds.Opened or EntryKinds.Pump or EntryKinds.ScaleReading
        || (entry.Kind == EntryKinds.ContainerMoved && entry.Fields.Text(FieldNames.Action) != Chosen.Connected);
}
