using System.Data;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using Npgsql;
using Tightcold.Jobs.Journals;
using Tightcold.Quantities;
using Tightcold.Storage.Mapping;

namespace Tightcold.Storage.Engines;

/// <summary>A database on a PostgreSQL server, shared by several programs.</summary>
internal sealed class PostgresEngine : Engine
{
    /// <summary>Names of our own locks on the server; any two numbers that nothing else in the database
    /// takes.</summary>
    private const long UpgradeLock = 0x5469_6768_7401,
        NumberLock = 0x5469_6768_7402;

    private readonly DbContextOptions<PostgresDatabase> options;
    private readonly string connectionText;
    private readonly WaitingLine line,
        writers;

    public PostgresEngine(string connection)
    {
        var settings = Settle(connection);
        Name = Phrase.Of(
            $"the database {Phrase.Verbatim(settings.Database ?? "")} on {Phrase.Verbatim(settings.Host ?? "")}"
        );
        connectionText = settings.ToString();
        // Who finds all connections taken waits here in turn; the driver's own line turns everybody away after seconds.
        line = new(Math.Max(1, settings.MaxPoolSize), Patience);
        // Who waits at the server for a job that another one writes to holds a connection all the while: a few at once
        // are as quick as many, and leave the others to those who look.
        writers = new(Math.Clamp(settings.MaxPoolSize / 4, 1, 5), Patience);
        options = new DbContextOptionsBuilder<PostgresDatabase>().UseNpgsql(connectionText).Options;
    }

    /// <summary>The connection with what a person did not say.</summary>
    internal static NpgsqlConnectionStringBuilder Settle(string connection)
    {
        var settings = new NpgsqlConnectionStringBuilder(connection);
        // Not ContainsKey: the builder says of every name it knows that it contains it.
        bool Said(string name) => settings.Keys.Contains(name, StringComparer.OrdinalIgnoreCase);
        // A person waits for the answer: better a sentence after some seconds than a page that never comes.
        if (!Said("Timeout"))
            settings.Timeout = 10;
        if (!Said("Maximum Pool Size"))
            settings.MaxPoolSize = 20;
        settings.ApplicationName ??= "Tightcold";
        // A password goes to the server that was meant and to nobody who listens in: unless a person says otherwise.
        if (!Said("SSL Mode") && !IsThisMachine(settings.Host))
            settings.SslMode = SslMode.VerifyFull;
        return settings;
    }

    /// <summary>A socket of this machine, or its loopback: what goes there leaves it not.</summary>
    internal static bool IsThisMachine(string? host) =>
        host is null or "localhost" or ['/' or '@', ..]
        || (System.Net.IPAddress.TryParse(host, out var address) && System.Net.IPAddress.IsLoopback(address));

    public override Phrase Name { get; }

    public override JournalDatabase Open() => new PostgresDatabase(options);

    public override async Task PrepareAsync(CancellationToken cancellation)
    {
        var known = Known<PostgresDatabase>();
        var connection = new NpgsqlConnection(connectionText);
        await using (connection.ConfigureAwait(false))
        {
            await connection.OpenAsync(cancellation).ConfigureAwait(false);
            if (await IsReadyAsync(connection, known, cancellation).ConfigureAwait(false))
                return;
            // One program at a time; whoever waited finds it done. The server gives the lock back when the connection
            // ends.
            await RunAsync(connection, $"SELECT pg_advisory_lock({UpgradeLock})", cancellation).ConfigureAwait(false);
            try
            {
                if (await IsReadyAsync(connection, known, cancellation).ConfigureAwait(false))
                    return;
                var database = Open();
                await using (database.ConfigureAwait(false))
                {
                    await database.Database.MigrateAsync(cancellation).ConfigureAwait(false);
                    await JobLines.FillAsync(database, cancellation).ConfigureAwait(false);
                }
            }
            finally
            {
                await RunAsync(connection, $"SELECT pg_advisory_unlock({UpgradeLock})", CancellationToken.None)
                    .ConfigureAwait(false);
            }
        }
    }

    private async Task<bool> IsReadyAsync(
        NpgsqlConnection connection,
        IReadOnlyList<string> known,
        CancellationToken cancellation
    )
    {
        var command = new NpgsqlCommand("SELECT to_regclass('\"__EFMigrationsHistory\"') IS NOT NULL", connection);
        await using (command.ConfigureAwait(false))
        {
            if (await command.ExecuteScalarAsync(cancellation).ConfigureAwait(false) is not true)
                return false;
        }
        return IsCurrent(known, await AppliedAsync(connection, cancellation).ConfigureAwait(false))
            && await LinesAreWholeAsync(connection, cancellation).ConfigureAwait(false);
    }

    private static async Task RunAsync(NpgsqlConnection connection, string sql, CancellationToken cancellation)
    {
        var command = new NpgsqlCommand(sql, connection) { CommandTimeout = 0 };
        await using (command.ConfigureAwait(false))
        {
            await command.ExecuteNonQueryAsync(cancellation).ConfigureAwait(false);
        }
    }

    public override Task<IDbContextTransaction> ReadAsync(JournalDatabase database, CancellationToken cancellation) =>
        database.Database.BeginTransactionAsync(IsolationLevel.RepeatableRead, cancellation);

    public override async Task<WaitingLine.Place?> RoomAsync(CancellationToken cancellation) =>
        await line.EnterAsync(cancellation).ConfigureAwait(false) ?? throw Busy();

    // Beyond these the server queues writers by the rows they lock.
    public override async Task<WaitingLine.Place> TurnAsync(CancellationToken cancellation) =>
        await writers.EnterAsync(cancellation).ConfigureAwait(false) ?? throw Busy();

    public override Task LockJobAsync(JournalDatabase database, Guid jobId, CancellationToken cancellation) =>
        database.Database.ExecuteSqlAsync($"SELECT 1 FROM jobs WHERE id = {jobId} FOR UPDATE", cancellation);

    public override Task LockNumbersAsync(JournalDatabase database, CancellationToken cancellation) =>
        database.Database.ExecuteSqlAsync($"SELECT pg_advisory_xact_lock({NumberLock})", cancellation);

    // The next transaction to come: another one as soon as anybody wrote
    // (postgresql.org/docs/current/functions-info.html).
    public override Task<long> VersionAsync(JournalDatabase database, CancellationToken cancellation) =>
        database
            .Database.SqlQueryRaw<long>("SELECT pg_snapshot_xmax(pg_current_snapshot())::text::bigint AS \"Value\"")
            .SingleAsync(cancellation);

    public override async Task CopyToAsync(string file, CancellationToken cancellation)
    {
        using var target = new SqliteEngine(file);
        await target.PrepareAsync(cancellation).ConfigureAwait(false);
        await DataCopy.RunAsync(this, target, cancellation).ConfigureAwait(false);
        await DataCopy.SettleAsync(target, "DELETE", cancellation).ConfigureAwait(false);
        File.Delete(file + SqliteEngine.UpgradeMark);
    }

    // Pages and references are the server's own to look after; everything is read again by the check all the same.
    public override Task<IReadOnlyList<Phrase>> DamageAsync(JournalDatabase database, CancellationToken cancellation) =>
        Task.FromResult<IReadOnlyList<Phrase>>([]);

    public override StoreException? Explain(Exception trouble)
    {
        var known = Chain(trouble).OfType<NpgsqlException>().FirstOrDefault();
        if (known is null)
            return null;
        // Codes: postgresql.org/docs/current/errcodes-appendix.html.
        var said = (known as PostgresException)?.MessageText ?? known.Message;
        var (kind, sentence) = known.SqlState switch
        {
            "3D000" => (
                StoreTrouble.Other,
                Phrase.Of(
                    $"{NameFirst} is not there; make it on the server first (createdb), or correct the name in --data."
                )
            ),
            "28P01" or "28000" => (
                StoreTrouble.Other,
                Phrase.Of($"{NameFirst} refused the user name or the password; correct them in --data.")
            ),
            "42501" or "25006" => (
                StoreTrouble.ReadOnly,
                Phrase.Of(
                    $"{NameFirst} may only be read by this user; nothing was written. "
                        + $"Let the user write, or choose another with --data."
                )
            ),
            "53100" => (
                StoreTrouble.Full,
                Phrase.Of(
                    $"The disk of the server is full; nothing was written to {Name}. Make room there and try again."
                )
            ),
            "53300" => (
                StoreTrouble.Busy,
                Phrase.Of($"{NameFirst} takes no connection just now; try again in a moment.")
            ),
            "40001" or "40P01" or "23505" or "55P03" or "57014" => (
                StoreTrouble.Busy,
                Phrase.Of($"{NameFirst} was busy with other writers; nothing was written. Try again.")
            ),
            "22021" => (
                StoreTrouble.Other,
                Phrase.Of(
                    $"A text holds a character that {Name} cannot keep; nothing was written. Take it out and try again."
                )
            ),
            "57P01" or "57P02" or "57P03" => (
                StoreTrouble.Stopped,
                Phrase.Of($"{NameFirst} is being stopped or started; try again in a moment.")
            ),
            // Others of this program hold all connections.
            null when known.Message.Contains("pool has been exhausted", StringComparison.Ordinal) => (
                StoreTrouble.Busy,
                Phrase.Of(
                    $"{NameFirst} is busy: all connections of this program are in use; nothing was written. Try again."
                )
            ),
            // The server's own limits of memory and connections.
            "53000" or "53200" or "53400" => (
                StoreTrouble.Busy,
                Phrase.Of(
                    $"{NameFirst} has no room for more just now ({Phrase.Verbatim(said)}); nothing was written. Try again in a moment."
                )
            ),
            null when Chain(known).OfType<System.Security.Authentication.AuthenticationException>().Any() => (
                StoreTrouble.Other,
                Phrase.Of(
                    $"{NameFirst} shows no certificate that this machine trusts for that name, so nothing was sent; "
                        + $"name its authority in --data (Root Certificate=FILE, or sslrootcert=FILE in an address)."
                )
            ),
            null when known.Message.Contains("SSL connection requested", StringComparison.Ordinal) => (
                StoreTrouble.Other,
                Phrase.Of(
                    $"{NameFirst} offers no encryption, so nothing was sent; switch it on there (ssl = on), "
                        + $"or say SSL Mode=Disable in --data where nobody can listen in."
                )
            ),
            // A connection that stood, and a lock that was not given back in time.
            null
                when Chain(known).OfType<TimeoutException>().Any()
                    && known.Message.Contains("reading from stream", StringComparison.Ordinal) => (
                StoreTrouble.Busy,
                Phrase.Of($"{NameFirst} kept this waiting for too long; nothing was written. Try again.")
            ),
            null or ['0', '8', ..] => (
                StoreTrouble.Stopped,
                Phrase.Of(
                    $"{NameFirst} does not answer ({Phrase.Verbatim(known.InnerException?.Message ?? said)}). "
                        + $"What was acknowledged before is kept there; check the server and the network, then try "
                        + $"again."
                )
            ),
            var code => (
                StoreTrouble.Other,
                Phrase.Of(
                    $"{NameFirst} cannot be used (code {code ?? ""}: {Phrase.Verbatim(said)}); nothing was written."
                )
            ),
        };
        return new StoreException(kind, sentence, trouble);
    }

    public override bool IsPassing(Exception trouble) =>
        Chain(trouble)
            .Any(link =>
                link
                    is DbUpdateConcurrencyException
                        or PostgresException { SqlState: "40001" or "40P01" or "23505" or "53300" or "57P03" }
            );

    public override void Release()
    {
        using var connection = new NpgsqlConnection(connectionText);
        NpgsqlConnection.ClearPool(connection);
    }
}
