using Microsoft.EntityFrameworkCore;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Quantities;

namespace Tightcold.Storage.Mapping;

/// <summary>Keeps the lines of the list of jobs in step with what they are made from.</summary>
internal static class JobLines
{
    private const int Batch = 500;

    public static JobLineRow New(JobRow job, string carLabel)
    {
        var line = new JobLineRow
        {
            JobId = job.Id,
            Number = job.Number,
            CarId = job.CarId,
            Complaint = job.Complaint,
            OpenedAt = job.OpenedAt,
            State = "open",
        };
        Name(line, carLabel);
        return line;
    }

    public static void Name(JobLineRow line, string carLabel)
    {
        line.CarLabel = carLabel;
        line.SearchKey = Key(line);
    }

    public static string Key(JobLineRow line) => SearchKey.Of(line.CarLabel, line.Complaint, line.WaitingFor);

    public static JobSummary Summary(JobLineRow line) =>
        new(
            line.Number,
            line.JobId,
            line.CarId,
            line.CarLabel,
            line.Complaint,
            line.State,
            line.WaitingFor,
            line.OpenedAt,
            line.LastEntryAt,
            line.Entries
        );

    /// <summary>Reads the journal of the line's job again, as the transaction sees it: of each entry what decides which
    /// one counts, and the fields of the one that says the state.</summary>
    public static async Task RefreshAsync(JournalDatabase database, JobLineRow line, CancellationToken cancellation)
    {
        var entries = await database
            .Entries.AsNoTracking()
            .Where(entry => entry.JobId == line.JobId)
            .Select(entry => new
            {
                entry.Id,
                entry.Kind,
                entry.ObservedAt,
                entry.WrittenAt,
                entry.Supersedes,
            })
            .ToListAsync(cancellation)
            .ConfigureAwait(false);
        var (journal, _) = Journal.Create(
            entries.Select(entry => new Entry(
                entry.Id,
                entry.Kind,
                entry.ObservedAt,
                entry.WrittenAt,
                "",
                FieldBag.Empty,
                entry.Supersedes
            ))
        );
        if (journal is null)
            throw new StoreException(
                Phrase.Of($"The corrections of job {line.Number} would run in a circle; nothing was added.")
            );
        Entry? state = null;
        if (journal.Last(EntryKinds.JobState) is { } last)
            state = RowText.Entry(
                await database
                    .Entries.AsNoTracking()
                    .FirstAsync(entry => entry.Id == last.Id, cancellation)
                    .ConfigureAwait(false)
            );
        line.State = state?.Fields.Text(FieldNames.State) ?? "open";
        line.WaitingFor = state is null ? null : JobRecord.WaitsFor(state);
        line.LastEntryAt = journal.Standing.Length == 0 ? null : journal.Standing[^1].ObservedAt;
        line.Entries = entries.Count;
        Name(line, line.CarLabel);
    }

    /// <summary>After an upgrade: makes what is missing. An interrupted filling goes on where it stopped.</summary>
    public static async Task FillAsync(JournalDatabase database, CancellationToken cancellation)
    {
        await FillLinesAsync(database, cancellation).ConfigureAwait(false);
        await ChainFill.RunAsync(database, cancellation).ConfigureAwait(false);
    }

    private static async Task FillLinesAsync(JournalDatabase database, CancellationToken cancellation)
    {
        while (
            await database
                .Cars.Where(car => car.LabelKey == "")
                .Take(Batch)
                .ToListAsync(cancellation)
                .ConfigureAwait(false)
                is { Count: > 0 } cars
        )
        {
            foreach (var car in cars)
                car.LabelKey = RowText.LabelKey(RowText.Car(car).Label);
            await database.SaveChangesAsync(cancellation).ConfigureAwait(false);
            database.ChangeTracker.Clear();
        }
        while (
            await database
                .Jobs.AsNoTracking()
                .Where(job => !database.JobLines.Any(line => line.JobId == job.Id))
                .Take(Batch)
                .ToListAsync(cancellation)
                .ConfigureAwait(false)
                is { Count: > 0 } jobs
        )
        {
            var transaction = await database.Database.BeginTransactionAsync(cancellation).ConfigureAwait(false);
            await using (transaction.ConfigureAwait(false))
            {
                foreach (var job in jobs)
                {
                    var car = await database
                        .Cars.AsNoTracking()
                        .FirstAsync(there => there.Id == job.CarId, cancellation)
                        .ConfigureAwait(false);
                    var line = New(job, RowText.Car(car).Label);
                    await RefreshAsync(database, line, cancellation).ConfigureAwait(false);
                    database.JobLines.Add(line);
                }
                await database.SaveChangesAsync(cancellation).ConfigureAwait(false);
                await transaction.CommitAsync(cancellation).ConfigureAwait(false);
            }
            database.ChangeTracker.Clear();
        }
    }
}
