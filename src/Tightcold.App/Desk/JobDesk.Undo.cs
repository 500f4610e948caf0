using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Picture.Pressures;

namespace Tightcold.App.Desk;

/// <summary>What an undo struck.</summary>
public sealed record Undone(ImmutableArray<Entry> Entries);

public sealed partial class JobDesk
{
    /// <summary>Strikes what was written last and still counts: one entry, or all that were written in one go, such as
    /// the readings of a gauge's log. Once more takes that back.</summary>
    public async Task<Outcome<Undone>> UndoAsync(int jobNumber, string who, CancellationToken cancellation = default)
    {
        if (await store.RecordAsync(jobNumber, cancellation).ConfigureAwait(false) is not { } record)
            return Outcome<Undone>.Refused(NoJob(jobNumber));
        var counting = record.Journal.All.Where(entry => !record.Journal.IsStruck(entry.Id)).ToList();
        if (counting.Count == 0)
            return Outcome<Undone>.Refused(
                InputProblem.Of("job", Number(jobNumber), $"nothing that counts was written in it yet")
            );
        var last = counting.Max(entry => entry.WrittenAt);
        var act = counting.Where(entry => entry.WrittenAt == last).ToImmutableArray();
        var now = Now;
        var strikes = act.Select(entry => new Entry(
                ids.NextId(now),
                EntryKinds.Struck,
                now,
                now,
                who.Trim(),
                FieldBag.Empty,
                entry.Id,
                "undone"
            ))
            .ToList();
        foreach (var strike in strikes)
            if (EntryRules.Check(record, strike, AirPressure.At(record, now).Known) is { Count: > 0 } problems)
                return Outcome<Undone>.Refused(problems);
        await store.AddEntriesAsync(record.Job.Id, strikes, cancellation).ConfigureAwait(false);
        return Outcome<Undone>.Of(new(act));
    }

    /// <summary>How many of a log's readings the journal has already: as many vacuum readings stand at these very
    /// moments.</summary>
    public static int HeldOf(JobRecord record, IEnumerable<Gauges.GaugeLog.Line> lines)
    {
        ArgumentNullException.ThrowIfNull(record);
        var moments = record
            .Journal.OfKind(EntryKinds.VacuumReading)
            .Select(entry => entry.ObservedAt.UtcTicks)
            .ToHashSet();
        return lines.Count(line => moments.Contains(line.At.UtcTicks));
    }

    private static string Number(int number) => number.ToString(System.Globalization.CultureInfo.InvariantCulture);
}
