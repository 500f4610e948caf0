using System.Collections.Concurrent;
using System.Data;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using Tightcold.Jobs.Journals;
using Tightcold.Quantities;
using Tightcold.Storage.Mapping;

namespace Tightcold.Storage.Engines;

/// <summary>One data file on this machine.</summary>
internal sealed class SqliteEngine : Engine
{
    /// <summary>SQLite's writers poll for their turn; inside one program they queue here instead, and between programs
    /// in a line of their own.</summary>
    private static readonly ConcurrentDictionary<string, WaitingLine> Lines = new(StringComparer.Ordinal);

    /// <summary>Engines that hold open connections for the next who asks.</summary>
    private static readonly ConcurrentDictionary<SqliteEngine, bool> Holding = new();

    /// <summary>The lock of an upgrade lies beside the file, under its name and this. It is empty and stays.</summary>
    public const string UpgradeMark = ".upgrade";

    /// <summary>So many connections stay open while nobody uses them.</summary>
    private const int MostIdle = 8;

    private static readonly DbContextOptions<JournalDatabase> Options = new DbContextOptionsBuilder<JournalDatabase>()
        .UseSqlite()
        .Options;

    private readonly ConcurrentBag<SqliteConnection> idle = [];
    private readonly bool keepsOpen;
    private readonly WaitingLine line;
    private readonly ProgramsLine programs;
    private readonly TimeSpan patience;
    private readonly FileLock? use;
    private readonly string connectionText,
        pragmas,
        shownAs;
    private readonly Lock watching = new();
    private SqliteConnection? watcher;
    private int watchers;
    private volatile bool closed;

    /// <param name="readOnly">A file that is only looked at: a backup.</param>
    /// <param name="pragmas">What a test adds to every connection, such as a small disk.</param>
    /// <param name="patience">How long another program that holds the file is waited for, if not as usual.</param>
    /// <param name="shownAs">The file that a person knows, where this is a copy of it.</param>
    public SqliteEngine(
        string path,
        FileLock? use = null,
        bool readOnly = false,
        string pragmas = "",
        TimeSpan? patience = null,
        string? shownAs = null
    )
    {
        FilePath = path;
        this.shownAs = shownAs ?? path;
        this.use = use;
        this.patience = patience ?? Patience;
        keepsOpen = !readOnly;
        line = Lines.GetOrAdd(path, _ => new WaitingLine(1, this.patience));
        programs = new ProgramsLine(path);
        // What was acknowledged survives a kill and a power cut: each commit waits for the disk. Another program's
        // short write is waited for inside SQLite.
        this.pragmas = "PRAGMA busy_timeout=200; PRAGMA synchronous=FULL; PRAGMA foreign_keys=ON;" + pragmas;
        // The library's own pool may hand one connection to two at once (github.com/dotnet/efcore/issues/39008): one
        // writer's entries would hang on the other's transaction.
        connectionText = new SqliteConnectionStringBuilder
        {
            DataSource = path,
            ForeignKeys = true,
            Pooling = false,
            DefaultTimeout = (int)Math.Ceiling(this.patience.TotalSeconds),
            Mode = readOnly ? SqliteOpenMode.ReadOnly : SqliteOpenMode.ReadWriteCreate,
        }.ToString();
    }

    public string FilePath { get; }
    public override Phrase Name => Phrase.Of($"the data file {Phrase.Verbatim(shownAs)}");

    public override JournalDatabase Open()
    {
        var connection = Take();
        var database = new JournalDatabase(Options) { Closed = () => Keep(connection) };
        database.Database.SetDbConnection(connection);
        return database;
    }

    private SqliteConnection Take()
    {
        if (idle.TryTake(out var waiting))
            return waiting;
        var connection = new SqliteConnection(connectionText);
        try
        {
            connection.Open();
            using var command = connection.CreateCommand();
            command.CommandText = pragmas;
            command.ExecuteNonQuery();
            return connection;
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }

    /// <summary>Keeps a connection open for the next, unless something was left undone on it.</summary>
    private void Keep(SqliteConnection connection)
    {
        var clean =
            connection.State == ConnectionState.Open && SQLitePCL.raw.sqlite3_get_autocommit(connection.Handle) != 0;
        if (!clean || !keepsOpen || closed || idle.Count >= MostIdle)
        {
            connection.Dispose();
            return;
        }
        idle.Add(connection);
        Holding[this] = true;
        // Closed between the question above and now.
        if (closed)
            Release();
    }

    public override async Task PrepareAsync(CancellationToken cancellation)
    {
        if (await IsReadyAsync(cancellation).ConfigureAwait(false))
            return;
        // One program at a time; whoever waited finds it done.
        using var alone = await FileLock
            .AloneAsync(FilePath + UpgradeMark, TimeSpan.FromMinutes(2), cancellation)
            .ConfigureAwait(false);
        if (await IsReadyAsync(cancellation).ConfigureAwait(false))
            return;
        foreach (var file in new[] { FilePath, FilePath + "-wal", FilePath + "-shm" })
            PrivateFile.Close(file);
        var database = Open();
        await using (database.ConfigureAwait(false))
        {
            await database.Database.ExecuteSqlRawAsync("PRAGMA journal_mode=WAL;", cancellation).ConfigureAwait(false);
            // A program killed while upgrading leaves its mark, and the next would wait for it for ever. Who holds the
            // lock of the upgrade knows that nobody is upgrading.
            await database
                .Database.ExecuteSqlRawAsync("DROP TABLE IF EXISTS \"__EFMigrationsLock\";", cancellation)
                .ConfigureAwait(false);
            await database.Database.MigrateAsync(cancellation).ConfigureAwait(false);
            await JobLines.FillAsync(database, cancellation).ConfigureAwait(false);
        }
    }

    private async Task<bool> IsReadyAsync(CancellationToken cancellation)
    {
        if (!File.Exists(FilePath) || new FileInfo(FilePath).Length == 0)
            return false;
        var connection = Take();
        try
        {
            return await HasTablesAsync(connection, cancellation).ConfigureAwait(false)
                && IsCurrent(
                    Known<JournalDatabase>(),
                    await AppliedAsync(connection, cancellation).ConfigureAwait(false)
                )
                && await LinesAreWholeAsync(connection, cancellation).ConfigureAwait(false);
        }
        finally
        {
            Keep(connection);
        }
    }

    /// <summary>False for a file without tables: one whose making was cut short. Somebody else's tables are
    /// refused.</summary>
    private async Task<bool> HasTablesAsync(SqliteConnection connection, CancellationToken cancellation)
    {
        var command = connection.CreateCommand();
        await using (command.ConfigureAwait(false))
        {
            command.CommandText =
                "SELECT COUNT(*), SUM(name = '__EFMigrationsHistory') FROM sqlite_master WHERE type = 'table'";
            var reader = await command.ExecuteReaderAsync(cancellation).ConfigureAwait(false);
            await using (reader.ConfigureAwait(false))
            {
                await reader.ReadAsync(cancellation).ConfigureAwait(false);
                if (reader.GetInt64(0) == 0)
                    return false;
                if (reader.GetInt64(1) > 0)
                    return true;
            }
            command.CommandText =
                "SELECT COUNT(*) FROM sqlite_master WHERE type = 'table' AND name NOT LIKE '\\_\\_EF%' ESCAPE '\\' "
                + "AND name NOT LIKE 'sqlite\\_%' ESCAPE '\\'";
            return
                Convert.ToInt64(
                    await command.ExecuteScalarAsync(cancellation).ConfigureAwait(false),
                    System.Globalization.CultureInfo.InvariantCulture
                ) > 0
                ? throw new StoreException(
                    Phrase.Of(
                        $"The file {Phrase.Verbatim(FilePath)} is no Tightcold data file; it was left as it is. Choose another folder "
                            + $"with --data."
                    )
                )
                : false;
        }
    }

    /// <summary>The upgrades a file has seen; null when it is no data file of ours.</summary>
    public async Task<bool> IsOursAsync(CancellationToken cancellation)
    {
        var connection = new SqliteConnection(connectionText);
        await using (connection.ConfigureAwait(false))
        {
            await connection.OpenAsync(cancellation).ConfigureAwait(false);
            if (!await HasTablesAsync(connection, cancellation).ConfigureAwait(false))
                return false;
            _ = IsCurrent(Known<JournalDatabase>(), await AppliedAsync(connection, cancellation).ConfigureAwait(false));
            return true;
        }
    }

    public override async Task<IDbContextTransaction> ReadAsync(
        JournalDatabase database,
        CancellationToken cancellation
    )
    {
        await database.Database.OpenConnectionAsync(cancellation).ConfigureAwait(false);
        // Deferred, so that no writer waits.
        var transaction = ((SqliteConnection)database.Database.GetDbConnection()).BeginTransaction(deferred: true);
        return (await database.Database.UseTransactionAsync(transaction, cancellation).ConfigureAwait(false))!;
    }

    // Readers keep nobody waiting.
    public override Task<WaitingLine.Place?> RoomAsync(CancellationToken cancellation) =>
        Task.FromResult<WaitingLine.Place?>(null);

    public override async Task<WaitingLine.Place> TurnAsync(CancellationToken cancellation)
    {
        var place = await line.EnterAsync(cancellation).ConfigureAwait(false) ?? throw Busy();
        try
        {
            place.Beside = await programs.EnterAsync(patience, cancellation).ConfigureAwait(false);
            if (place.Beside is not null)
                return place;
            place.InVain = true;
            throw Busy();
        }
        catch
        {
            place.Dispose();
            throw;
        }
    }

    // SQLite has one writer at a time, from the begin of its transaction.
    public override Task LockJobAsync(JournalDatabase database, Guid jobId, CancellationToken cancellation) =>
        Task.CompletedTask;

    public override Task LockNumbersAsync(JournalDatabase database, CancellationToken cancellation) =>
        Task.CompletedTask;

    // sqlite.org/pragma.html#pragma_data_version: what others changed since, asked on a connection that never writes.
    public override Task<long> VersionAsync(JournalDatabase database, CancellationToken cancellation)
    {
        lock (watching)
        {
            if (watcher is null)
            {
                (watcher, watchers) = (Take(), watchers + 1);
                Holding[this] = true;
            }
            using var command = watcher.CreateCommand();
            command.CommandText = "PRAGMA data_version";
            // Each connection counts for itself.
            return Task.FromResult(((long)watchers << 32) + (long)command.ExecuteScalar()!);
        }
    }

    public override async Task CopyToAsync(string file, CancellationToken cancellation)
    {
        var connection = new SqliteConnection(connectionText);
        await using (connection.ConfigureAwait(false))
        {
            await connection.OpenAsync(cancellation).ConfigureAwait(false);
            var command = connection.CreateCommand();
            await using (command.ConfigureAwait(false))
            {
                // One read transaction over everything (sqlite.org/lang_vacuum.html), beside which writers go on.
                command.CommandText = "VACUUM INTO $file";
                command.Parameters.AddWithValue("$file", file);
                command.CommandTimeout = 0;
                await command.ExecuteNonQueryAsync(cancellation).ConfigureAwait(false);
            }
        }
    }

    public override async Task<IReadOnlyList<Phrase>> DamageAsync(
        JournalDatabase database,
        CancellationToken cancellation
    )
    {
        var found = new List<Phrase>();
        found.AddRange(
            (await RowsAsync(database, "PRAGMA integrity_check(20)", cancellation).ConfigureAwait(false))
                .Where(row => row != "ok")
                .Select(row => Phrase.Of($"The file is damaged: {Phrase.Verbatim(row)}."))
        );
        found.AddRange(
            (await RowsAsync(database, "PRAGMA foreign_key_check", cancellation).ConfigureAwait(false)).Select(table =>
                Phrase.Of($"A row of the table {Phrase.Verbatim(table)} points to something that is not there.")
            )
        );
        return found;
    }

    private static async Task<List<string>> RowsAsync(
        JournalDatabase database,
        string sql,
        CancellationToken cancellation
    )
    {
        var rows = new List<string>();
        await database.Database.OpenConnectionAsync(cancellation).ConfigureAwait(false);
        var command = database.Database.GetDbConnection().CreateCommand();
        await using (command.ConfigureAwait(false))
        {
            command.CommandText = sql;
            command.CommandTimeout = 0;
            var reader = await command.ExecuteReaderAsync(cancellation).ConfigureAwait(false);
            await using (reader.ConfigureAwait(false))
            {
                while (await reader.ReadAsync(cancellation).ConfigureAwait(false))
                    rows.Add(reader.GetString(0));
            }
        }
        return rows;
    }

    public override StoreException? Explain(Exception trouble) =>
        Chain(trouble).OfType<SqliteException>().FirstOrDefault() is { } known
            ? SqliteTroubles.Of(known, shownAs)
            : null;

    // Another program that holds the file is waited for where a transaction begins.
    public override bool IsPassing(Exception trouble) => false;

    public override void Release()
    {
        Holding.TryRemove(this, out _);
        while (idle.TryTake(out var connection))
            connection.Dispose();
        lock (watching)
        {
            watcher?.Dispose();
            watcher = null;
        }
    }

    /// <summary>Closes the connections that no engine of this program uses at the moment.</summary>
    public static void ReleaseAll()
    {
        foreach (var engine in Holding.Keys)
            engine.Release();
    }

    public override void Dispose()
    {
        closed = true;
        base.Dispose();
        use?.Dispose();
    }
}
