using System.Collections.Immutable;
using Tightcold.Diagnosis.Leaks;
using Tightcold.Diagnosis.Priors;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Quantities;
using static Tightcold.Picture.Pressures.Evidence;

namespace Tightcold.Picture.Leaks;

/// <summary>What the car lost over which time, from the history of its charges.</summary>
/// <param name="LostKg">Mass missing when the car came, best guess; null when nothing tells.</param>
/// <param name="SigmaKg">Its standard deviation.</param>
/// <param name="Basis">In words: from which charge to which reading.</param>
public sealed record LeakLosses(double? LostKg, double SigmaKg, Phrase Basis, ImmutableArray<Guid> Entries)
{
    private const double Month = LeakForecast.Year / 12;

    /// <summary>Nobody knows since when: two years, give or take a factor of two and a bit; assumed.</summary>
    private const double UnknownSeconds = 2 * LeakForecast.Year;
    private const double UnknownSpread = 0.8;

    /// <summary>A charge by weight, and one by feel, kg, one standard deviation; common practice.</summary>
    private const double WeighedSigmaKg = 0.015,
        FeltSigmaKg = 0.06;

    /// <summary>Recovery leaves some in the oil, kg; assumed.</summary>
    private const double LeftInOilKg = 0.012;

    public static LeakLosses Of(JobPicture picture)
    {
        ArgumentNullException.ThrowIfNull(picture);
        var record = picture.Record;
        var entries = record
            .Journal.OfKind(EntryKinds.EarlierCharge)
            .OrderByDescending(entry => entry.Fields.Number(FieldNames.MonthsAgo))
            .ToArray();
        if (Now(picture) is not { } now || record.Car.LabelCharge is not { } label)
            return new(
                null,
                0,
                Phrase.Words("what is missing is not known: it needs the label charge, and what was left"),
                [.. entries.Select(entry => entry.Id)]
            );
        var start = Start(picture, entries, label.Kilograms);
        var lost = start.ChargeKg + start.ToppedUpKg - now.Kilograms;
        var sigma = Math.Sqrt(start.SigmaKg * start.SigmaKg + now.SigmaKg * now.SigmaKg);
        return new(lost, sigma, start.Basis, [.. entries.Select(entry => entry.Id)]);
    }

    private sealed record Begin(
        double ChargeKg,
        double SigmaKg,
        double ToppedUpKg,
        double Seconds,
        double Spread,
        Phrase Basis
    );

    /// <summary>The last charge that is known, and what was added since.</summary>
    private static Begin Start(JobPicture picture, Entry[] entries, double labelKg)
    {
        var record = picture.Record;
        var full = entries.LastOrDefault(entry => entry.Fields.Text(FieldNames.Filled) != Chosen.ToppedUp);
        var since = full?.Fields.Number(FieldNames.MonthsAgo)
            ?? entries.FirstOrDefault()?.Fields.Number(FieldNames.MonthsAgo);
        var before = picture.EarlierPictures.LastOrDefault();
        if (before is { Mass: { SystemKnown: true, DrawnKg: > 0 } balance, Record.Journal.Standing: [.., var left] })
        {
            var seconds = Math.Max(86400, (record.Job.OpenedAt - left.ObservedAt).TotalSeconds);
            var topped = entries
                .Where(entry => entry.Fields.Number(FieldNames.MonthsAgo) * Month < seconds)
                .Sum(entry => entry.Fields.Si(FieldNames.Mass) ?? 0);
            var monthsAgo = (int)Math.Round(seconds / Month);
            return new(
                balance.SystemKg,
                Math.Sqrt(balance.SystemVarianceKg2 + 1e-4),
                topped,
                seconds,
                0.02,
                Phrase.Many(
                    monthsAgo,
                    $"Job {before.Record.Job.Number} left {Kilograms(balance.SystemKg)} in, {monthsAgo} month ago",
                    $"Job {before.Record.Job.Number} left {Kilograms(balance.SystemKg)} in, {monthsAgo} months ago"
                )
            );
        }
        if (since is { } months)
        {
            var (seconds, spread) = Remembered(months);
            var topped = entries
                .Where(entry => entry.Fields.Text(FieldNames.Filled) == Chosen.ToppedUp && entry != entries[0])
                .Sum(entry => entry.Fields.Si(FieldNames.Mass) ?? 0.15);
            return full is null
                ? new(
                    ChargeByHistory.ToppedUpShare * labelKg,
                    ChargeByHistory.ToppedUpSigma * labelKg,
                    topped,
                    seconds,
                    spread,
                    Phrase.Many(
                        (int)months,
                        $"A top-up {(int)months} month ago, to an unknown charge",
                        $"A top-up {(int)months} months ago, to an unknown charge"
                    )
                )
                : new(
                    labelKg,
                    full.Fields.Text(FieldNames.Filled) == Chosen.FullByWeight ? WeighedSigmaKg : FeltSigmaKg,
                    topped,
                    seconds,
                    spread,
                    Phrase.Many((int)months, $"Filled {(int)months} month ago", $"Filled {(int)months} months ago")
                );
        }
        return new(
            labelKg,
            FeltSigmaKg,
            0,
            UnknownSeconds,
            UnknownSpread,
            Phrase.Of($"Nobody wrote down since when: some 24 months are assumed, give or take a factor of two")
        );
    }

    /// <summary>A remembered date and the spread of its logarithm: a quarter off, a month or two always;
    /// assumed.</summary>
    internal static (double Seconds, double Spread) Remembered(double monthsAgo)
    {
        var months = Math.Max(0.5, monthsAgo);
        return (months * Month, Math.Sqrt(0.15 * 0.15 + Math.Pow(0.7 / months, 2)));
    }

    /// <summary>What was left: weighed when recovered, else from the standing pressure.</summary>
    private static (double Kilograms, double SigmaKg)? Now(JobPicture picture)
    {
        var recovered = picture.Record.Journal.OfKind(EntryKinds.Recovery).ToArray();
        if (recovered.Length > 0)
            return (
                recovered.Sum(entry =>
                    entry.Fields.Si(FieldNames.GrossAfter)!.Value - entry.Fields.Si(FieldNames.GrossBefore)!.Value
                ) + LeftInOilKg,
                0.015
            );
        if (picture.Came.Says == Standing.StandingSays.OpenToAir)
            return (0, 0.005);
        return picture.Came.Left is { } left ? (left.MeanKg, Math.Max(0.005, left.SigmaKg)) : null;
    }
}
