using System.Data.Common;
using System.Reflection;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;
using Microsoft.EntityFrameworkCore.Storage;
using Tightcold.Jobs.Journals;
using Tightcold.Quantities;
using Tightcold.Storage.Mapping;

namespace Tightcold.Storage.Engines;

/// <summary>What differs between one file and a server: opening, locking, upgrading, and what its troubles
/// mean.</summary>
internal abstract class Engine : IDisposable
{
    /// <summary>How a sentence calls the data, such as "the data file …".</summary>
    public abstract Phrase Name { get; }

    /// <summary>So long a writer waits where nobody moves. Below the 25 seconds after which our own script in the
    /// browser takes silence for a lost network.</summary>
    public static readonly TimeSpan Patience = TimeSpan.FromSeconds(20);

    public abstract JournalDatabase Open();

    /// <summary>Room for one more who asks or writes; null where there is always room.</summary>
    public abstract Task<WaitingLine.Place?> RoomAsync(CancellationToken cancellation);

    /// <summary>Makes the tables, or brings older ones up to date. Data of a newer version is refused and left
    /// untouched.</summary>
    public abstract Task PrepareAsync(CancellationToken cancellation);

    /// <summary>A transaction that sees one moment and keeps no writer waiting.</summary>
    public abstract Task<IDbContextTransaction> ReadAsync(JournalDatabase database, CancellationToken cancellation);

    /// <summary>A writer's turn; writers come first come, first served.</summary>
    public abstract Task<WaitingLine.Place> TurnAsync(CancellationToken cancellation);

    /// <summary>Inside a transaction: nobody else adds to this job until it ends.</summary>
    public abstract Task LockJobAsync(JournalDatabase database, Guid jobId, CancellationToken cancellation);

    /// <summary>Inside a transaction: nobody else takes a number for a job until it ends.</summary>
    public abstract Task LockNumbersAsync(JournalDatabase database, CancellationToken cancellation);

    /// <summary>Another number after every write, by whomever.</summary>
    public abstract Task<long> VersionAsync(JournalDatabase database, CancellationToken cancellation);

    /// <summary>A whole copy as a data file of its own, of one moment, while others write.</summary>
    public abstract Task CopyToAsync(string file, CancellationToken cancellation);

    /// <summary>What the database itself finds wrong with its pages and references; empty when nothing.</summary>
    public abstract Task<IReadOnlyList<Phrase>> DamageAsync(JournalDatabase database, CancellationToken cancellation);

    /// <summary>The trouble as a sentence, or null when it is not the database's.</summary>
    public abstract StoreException? Explain(Exception trouble);

    /// <summary>Others were in the way, and nothing was done; the same again in a moment will do.</summary>
    public abstract bool IsPassing(Exception trouble);

    /// <summary>Lets go of pooled connections.</summary>
    public abstract void Release();

    public virtual void Dispose() => Release();

    /// <summary>The upgrades this program knows, oldest first. By reflection: asking the migration service for them
    /// costs a command half a second of its start.</summary>
    protected static IReadOnlyList<string> Known<TDatabase>()
        where TDatabase : JournalDatabase =>
        [
            .. typeof(JournalDatabase)
                .Assembly.GetTypes()
                .Where(type => type.GetCustomAttribute<DbContextAttribute>()?.ContextType == typeof(TDatabase))
                .Select(type => type.GetCustomAttribute<MigrationAttribute>()?.Id)
                .OfType<string>()
                .Order(StringComparer.Ordinal),
        ];

    /// <returns>True when the tables are as this program wants them.</returns>
    protected bool IsCurrent(IReadOnlyList<string> known, IReadOnlyList<string> applied) =>
        applied.Except(known, StringComparer.Ordinal).Any()
            ? throw new StoreException(
                Phrase.Of(
                    $"{NameFirst} was written by a newer Tightcold; it was left untouched. "
                        + $"Use that version, or choose another place with --data."
                )
            )
            : applied.Count == known.Count;

    /// <summary>Both engines keep the list of applied upgrades under the same name.</summary>
    protected static async Task<IReadOnlyList<string>> AppliedAsync(
        DbConnection connection,
        CancellationToken cancellation
    )
    {
        var applied = new List<string>();
        var command = connection.CreateCommand();
        await using (command.ConfigureAwait(false))
        {
            command.CommandText = "SELECT \"MigrationId\" FROM \"__EFMigrationsHistory\"";
            var reader = await command.ExecuteReaderAsync(cancellation).ConfigureAwait(false);
            await using (reader.ConfigureAwait(false))
            {
                while (await reader.ReadAsync(cancellation).ConfigureAwait(false))
                    applied.Add(reader.GetString(0));
            }
        }
        return applied;
    }

    /// <summary>Lines are missing after an upgrade from a time without them, or after one that was cut short.</summary>
    protected static async Task<bool> LinesAreWholeAsync(DbConnection connection, CancellationToken cancellation)
    {
        var command = connection.CreateCommand();
        await using (command.ConfigureAwait(false))
        {
            command.CommandText =
                "SELECT (SELECT COUNT(*) FROM jobs) - (SELECT COUNT(*) FROM job_lines) + (SELECT COUNT(*) FROM cars "
                + "WHERE label_key = '') + (SELECT COUNT(DISTINCT job_id) FROM entries WHERE digest = '')";
            return Convert.ToInt64(
                    await command.ExecuteScalarAsync(cancellation).ConfigureAwait(false),
                    System.Globalization.CultureInfo.InvariantCulture
                ) == 0;
        }
    }

    /// <summary>The name as a sentence begins with it.</summary>
    protected Phrase NameFirst => Phrase.Capital(Name);

    protected StoreException Busy() =>
        new(
            StoreTrouble.Busy,
            Phrase.Of($"{NameFirst} is busy: others hold it and none of them moves on; nothing was written. Try again.")
        );

    protected static IEnumerable<Exception> Chain(Exception trouble)
    {
        for (var next = trouble; next is not null; next = next.InnerException!)
            yield return next;
    }
}
