using System.Collections.Immutable;
using System.Globalization;
using System.Runtime.CompilerServices;
using Microsoft.EntityFrameworkCore;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Kits;
using Tightcold.Quantities;
using Tightcold.Storage.Mapping;

namespace Tightcold.Storage;

/// <summary>Reading records, a few at a time or one. A job of which a cell is damaged is named and keeps nobody from
/// the others.</summary>
public sealed partial class JobStore
{
    /// <summary>Records read at once by <see cref="RecordsAsync"/>.</summary>
    private const int Batch = 200;

    /// <summary>The rows of one job as they stand, or why they cannot be had.</summary>
    private sealed record JobRows(int Number, Lazy<ImmutableArray<Kit>> Own)
    {
        public JobRow? Job { get; init; }
        public CarRow? Car { get; init; }
        public JobLineRow? Line { get; init; }
        public ImmutableArray<EntryRow> Entries { get; init; } = [];
        public ImmutableArray<JobKitRow> Brought { get; init; } = [];
        public Exception? Trouble { get; init; }
    }

    public async IAsyncEnumerable<JobRecord> RecordsAsync(
        Guid? carId,
        ICollection<string>? leftOut,
        [EnumeratorCancellation] CancellationToken cancellation
    )
    {
        await foreach (var part in PartsAsync(carId, cancellation).ConfigureAwait(false))
        foreach (var rows in part)
        {
            JobRecord record;
            try
            {
                record = Record(rows);
            }
            catch (StoreException trouble) when (leftOut is not null)
            {
                leftOut.Add(trouble.Message);
                continue;
            }
            yield return record;
        }
    }

    public Task<long> VersionAsync(CancellationToken cancellation) =>
        Guarded(database => engine.VersionAsync(database, cancellation), cancellation);

    public Task<IReadOnlyDictionary<int, string>> StampsAsync(CancellationToken cancellation) =>
        Guarded<IReadOnlyDictionary<int, string>>(
            async database =>
                (
                    await database
                        .JobLines.Join(
                            database.Cars,
                            line => line.CarId,
                            car => car.Id,
                            (line, car) =>
                                new
                                {
                                    line.Number,
                                    line.Entries,
                                    Car = car.Digest.Substring(0, 12),
                                }
                        )
                        .ToListAsync(cancellation)
                        .ConfigureAwait(false)
                ).ToDictionary(
                    one => one.Number,
                    one => string.Create(CultureInfo.InvariantCulture, $"{one.Entries} {one.Car}")
                ),
            cancellation
        );

    /// <summary>All jobs, newest first, in parts of one moment each.</summary>
    private async IAsyncEnumerable<IReadOnlyList<JobRows>> PartsAsync(
        Guid? carId,
        [EnumeratorCancellation] CancellationToken cancellation
    )
    {
        for (var before = int.MaxValue; ; )
        {
            var part = await Guarded(database => PartAsync(database, carId, before, cancellation), cancellation)
                .ConfigureAwait(false);
            yield return part;
            if (part.Count < Batch)
                yield break;
            before = part[^1].Number;
        }
    }

    private async Task<IReadOnlyList<JobRows>> PartAsync(
        JournalDatabase database,
        Guid? carId,
        int before,
        CancellationToken cancellation
    )
    {
        var transaction = await engine.ReadAsync(database, cancellation).ConfigureAwait(false);
        await using (transaction.ConfigureAwait(false))
        {
            var own = await OwnKitRowsAsync(database, cancellation).ConfigureAwait(false);
            var jobs = database
                .Jobs.AsNoTracking()
                .Where(job => job.Number < before && (carId == null || job.CarId == carId))
                .OrderByDescending(job => job.Number)
                .Take(Batch);
            try
            {
                return await TogetherAsync(database, jobs, own, cancellation).ConfigureAwait(false);
            }
            catch (Exception trouble) when (BadCell.Is(trouble))
            {
                // One cell is damaged, and which job it belongs to is found by reading them one by one.
                var parts = new List<JobRows>();
                foreach (
                    var number in await jobs.Select(job => job.Number).ToListAsync(cancellation).ConfigureAwait(false)
                )
                    if (await RowsOfAsync(database, number, own, cancellation).ConfigureAwait(false) is { } rows)
                        parts.Add(rows);
                return parts;
            }
        }
    }

    private static async Task<IReadOnlyList<JobRows>> TogetherAsync(
        JournalDatabase database,
        IQueryable<JobRow> jobs,
        Lazy<ImmutableArray<Kit>> own,
        CancellationToken cancellation
    )
    {
        var rows = await jobs.ToListAsync(cancellation).ConfigureAwait(false);
        var ids = rows.Select(row => row.Id).ToList();
        var carIds = rows.Select(row => row.CarId).Distinct().ToList();
        var cars = await database
            .Cars.AsNoTracking()
            .Where(car => carIds.Contains(car.Id))
            .ToDictionaryAsync(car => car.Id, cancellation)
            .ConfigureAwait(false);
        var entries = (
            await database
                .Entries.AsNoTracking()
                .Where(entry => ids.Contains(entry.JobId))
                .ToListAsync(cancellation)
                .ConfigureAwait(false)
        ).ToLookup(entry => entry.JobId);
        var brought = (
            await database
                .JobKits.AsNoTracking()
                .Where(kit => ids.Contains(kit.JobId))
                .ToListAsync(cancellation)
                .ConfigureAwait(false)
        ).ToLookup(kit => kit.JobId);
        var lines = await database
            .JobLines.AsNoTracking()
            .Where(line => ids.Contains(line.JobId))
            .ToDictionaryAsync(line => line.JobId, cancellation)
            .ConfigureAwait(false);
        return
        [
            .. rows.Select(row => new JobRows(row.Number, own)
            {
                Job = row,
                Car = cars.GetValueOrDefault(row.CarId),
                Line = lines.GetValueOrDefault(row.Id),
                Entries = [.. entries[row.Id]],
                Brought = [.. brought[row.Id]],
            }),
        ];
    }

    /// <summary>The rows of the job of that number; null when there is none.</summary>
    private static async Task<JobRows?> RowsOfAsync(
        JournalDatabase database,
        int number,
        Lazy<ImmutableArray<Kit>> own,
        CancellationToken cancellation
    )
    {
        try
        {
            var row = await database
                .Jobs.AsNoTracking()
                .FirstOrDefaultAsync(job => job.Number == number, cancellation)
                .ConfigureAwait(false);
            if (row is null)
                return null;
            return new(number, own)
            {
                Job = row,
                Car = await database
                    .Cars.AsNoTracking()
                    .FirstOrDefaultAsync(there => there.Id == row.CarId, cancellation)
                    .ConfigureAwait(false),
                Entries =
                [
                    .. await database
                        .Entries.AsNoTracking()
                        .Where(entry => entry.JobId == row.Id)
                        .ToListAsync(cancellation)
                        .ConfigureAwait(false),
                ],
                Brought = row.KitsSince is null
                    ? []
                    :
                    [
                        .. await database
                            .JobKits.AsNoTracking()
                            .Where(kit => kit.JobId == row.Id)
                            .ToListAsync(cancellation)
                            .ConfigureAwait(false),
                    ],
                Line = await LineOfAsync(database, number, cancellation).ConfigureAwait(false),
            };
        }
        catch (Exception trouble) when (BadCell.Is(trouble))
        {
            return new(number, own) { Trouble = trouble };
        }
    }

    /// <summary>The job's line of the list; null where it cannot be read, for the list says nothing of its
    /// own.</summary>
    private static async Task<JobLineRow?> LineOfAsync(
        JournalDatabase database,
        int number,
        CancellationToken cancellation
    )
    {
        try
        {
            return await database
                .JobLines.AsNoTracking()
                .FirstOrDefaultAsync(line => line.Number == number, cancellation)
                .ConfigureAwait(false);
        }
        catch (Exception trouble) when (BadCell.Is(trouble))
        {
            return null;
        }
    }

    /// <summary>A part of the list of which a line is damaged: that line from the journal it was made from.</summary>
    private static async Task<JobsFound> FoundOneByOneAsync(
        JournalDatabase database,
        List<int> numbers,
        int most,
        CancellationToken cancellation
    )
    {
        var found = new List<JobSummary>();
        var own = await OwnKitRowsAsync(database, cancellation).ConfigureAwait(false);
        foreach (var number in numbers.Take(most))
        {
            if (await LineOfAsync(database, number, cancellation).ConfigureAwait(false) is { } line)
            {
                found.Add(JobLines.Summary(line));
                continue;
            }
            try
            {
                if (await RowsOfAsync(database, number, own, cancellation).ConfigureAwait(false) is { } rows)
                    found.Add(JobSummary.Of(Record(rows)));
            }
            catch (StoreException)
            {
                // Neither line nor journal: check names the job.
            }
        }
        return new([.. found], numbers.Count > most);
    }

    private static JobRecord Record(JobRows rows)
    {
        if (rows.Trouble is { } bad)
            throw new StoreException(
                Phrase.Of(
                    $"Job {rows.Number} cannot be read: a time, an id or a number in it is damaged "
                        + $"({Phrase.Verbatim(bad.Message.TrimEnd('.'))}). Nothing was changed."
                ),
                bad
            );
        var row = rows.Job!;
        if (rows.Car is not { } car)
            throw new StoreException(Phrase.Of($"The car of job {row.Number} is not there. Nothing was changed."));
        try
        {
            var (journal, problems) = Journal.Create(rows.Entries.Select(RowText.Entry));
            return journal is null
                ? throw new StoreException(
                    Phrase.Of($"its journal contradicts itself ({problems[0].Sentence}) Nothing was changed.")
                )
                : new JobRecord(RowText.Car(car), Kits(row, rows.Own.Value, rows.Brought), RowText.Job(row), journal)
                {
                    BringsKits = row.KitsSince is not null,
                    Chain = rows.Entries.Any(entry => entry.Digest.Length == 0)
                        ? []
                        :
                        [
                            .. rows
                                .Entries.OrderBy(entry => entry.Sequence)
                                .Select(entry => new ChainLink(entry.Id, entry.Digest)),
                        ],
                };
        }
        catch (StoreException trouble)
        {
            throw new StoreException(Phrase.Of($"Job {row.Number} cannot be read: {trouble.Says}"), trouble);
        }
    }
}
