using Tightcold.Jobs.Journals;
using Microsoft.Data.Sqlite;
using Npgsql;
using Tightcold.App.Books;
using Tightcold.App.Demo;
using Tightcold.Storage.Engines;
using Tightcold.Storage.Safety;

namespace Tightcold.Storage.Tests;

/// <summary>The place of the data: modes of files, what a killed program left, disks that take nothing, connections to
/// servers.</summary>
public sealed class PlaceTests : IDisposable
{
    private static readonly DateTimeOffset Noon = new(2031, 7, 4, 12, 0, 0, TimeSpan.Zero);
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Every_file_with_data_is_for_its_owner_alone()
    {
        if (OperatingSystem.IsWindows())
        {
            Assert.Skip("Windows knows no modes.");
            return;
        }
        // As a folder that others may look into.
        File.SetUnixFileMode(folder.Path, (UnixFileMode)0b111_101_101);
        using (var store = await JobStore.OpenAsync(folder.Path, Stop))
        {
            await DemoScenario.PlayAsync(store, null, Stop);
            OnlyForOwner("tightcold.db", "tightcold.db-wal", "tightcold.db-shm");
            await store.BackupAsync(folder.File("saved.db"), LedgerClosure.Of, Stop);
            OnlyForOwner("saved.db");
        }
        JobStore.Release();
        var report = await DataRestore.RunAsync(
            new DataPlace(folder.Path, null),
            folder.File("saved.db"),
            null,
            Noon,
            Stop
        );
        OnlyForOwner("tightcold.db", Path.GetFileName(report.KeptAs!));
    }

    [Fact]
    public async Task A_file_that_an_earlier_program_left_open_to_all_is_closed_when_it_is_upgraded()
    {
        if (OperatingSystem.IsWindows())
        {
            Assert.Skip("Windows knows no modes.");
            return;
        }
        File.Copy(Path.Combine(AppContext.BaseDirectory, "OldFiles", "1-first.db"), folder.File("tightcold.db"));
        File.SetUnixFileMode(folder.File("tightcold.db"), (UnixFileMode)0b110_100_100);
        using var store = await JobStore.OpenAsync(folder.Path, Stop);
        OnlyForOwner("tightcold.db");
    }

    private void OnlyForOwner(params string[] files)
    {
        if (OperatingSystem.IsWindows())
            return;
        foreach (var file in files)
            Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(folder.File(file)));
    }

    [Fact]
    public async Task What_a_killed_backup_or_restore_left_is_taken_away_by_the_next_start_that_is_alone()
    {
        using (var first = await JobStore.OpenAsync(folder.Path, Stop))
        {
            Directory.CreateDirectory(folder.File("restoring"));
            await File.WriteAllTextAsync(folder.File("restoring/tightcold.db"), "half", Stop);
            Directory.CreateDirectory(folder.File("backups"));
            await File.WriteAllTextAsync(folder.File("backups/tightcold-1.db.part"), "half", Stop);
            await File.WriteAllTextAsync(folder.File("backups/tightcold-0.db"), "whole", Stop);
            // Somebody may be at it.
            using var second = await JobStore.OpenAsync(folder.Path, Stop);
            Assert.True(Directory.Exists(folder.File("restoring")));
            Assert.True(File.Exists(folder.File("backups/tightcold-1.db.part")));
        }
        JobStore.Release();
        using var next = await JobStore.OpenAsync(folder.Path, Stop);
        Assert.False(Directory.Exists(folder.File("restoring")));
        Assert.False(File.Exists(folder.File("backups/tightcold-1.db.part")));
        Assert.True(File.Exists(folder.File("backups/tightcold-0.db")));
    }

    [Theory]
    [InlineData("as this program leaves it")]
    [InlineData("with a log that was not put back")]
    [InlineData("of an earlier program")]
    public async Task Data_on_a_disk_that_takes_nothing_are_read_and_printed_and_no_letter_there_changes(string how)
    {
        if (how == "of an earlier program")
        {
            File.Copy(Path.Combine(AppContext.BaseDirectory, "OldFiles", "1-first.db"), folder.File("tightcold.db"));
        }
        else
        {
            using var writing = await JobStore.OpenAsync(folder.Path, Stop);
            await DemoScenario.PlayAsync(writing, null, Stop);
            if (how == "with a log that was not put back")
            {
                File.Copy(folder.File("tightcold.db-wal"), folder.File("log"));
                File.Copy(folder.File("tightcold.db"), folder.File("data"));
            }
        }
        JobStore.Release();
        if (how == "with a log that was not put back")
        {
            File.Move(folder.File("log"), folder.File("tightcold.db-wal"));
            File.Move(folder.File("data"), folder.File("tightcold.db"), overwrite: true);
        }
        var before = Directory.EnumerateFiles(folder.Path).Order().ToDictionary(file => file, File.ReadAllBytes);
        using (var store = await ReadOnlyMedia.OpenAsync(folder.Path, Stop))
        {
            var first = (await store.RecordAsync(1, Stop))!;
            Assert.NotEmpty(first.Journal.All);
            Assert.Empty((await store.CheckAsync(LedgerClosure.Of, Stop)).All);
            var trouble = await Assert.ThrowsAsync<StoreException>(() =>
                store.AddEntriesAsync(first.Job.Id, [first.Journal.All[0] with { Id = Guid.NewGuid() }], Stop)
            );
            Assert.Equal(StoreTrouble.ReadOnly, trouble.Trouble);
            Assert.Contains(folder.File("tightcold.db"), trouble.Message, StringComparison.Ordinal);
        }
        Assert.Equal(before.Keys, Directory.EnumerateFiles(folder.Path).Order());
        Assert.All(before, file => Assert.Equal(file.Value, File.ReadAllBytes(file.Key)));
    }

    [Fact]
    public void A_log_that_finds_no_room_is_a_full_disk()
    {
        // sqlite.org/rescode.html: SQLITE_IOERR_SHMSIZE is 10 | 19 << 8.
        Assert.Equal(
            StoreTrouble.Full,
            SqliteTroubles.Of(new SqliteException("disk I/O error", 10, 10 | (19 << 8)), "x").Trouble
        );
        Assert.Equal(
            StoreTrouble.Other,
            SqliteTroubles.Of(new SqliteException("disk I/O error", 10, 266), "x").Trouble
        );
    }

    [Theory]
    [InlineData("Host=garage;Database=t;Username=bays", SslMode.VerifyFull)]
    [InlineData("Host=192.168.1.20;Database=t;Username=bays", SslMode.VerifyFull)]
    [InlineData("Host=garage;Database=t;Username=bays;SSL Mode=Disable", SslMode.Disable)]
    [InlineData("Host=localhost;Database=t;Username=bays", SslMode.Prefer)]
    [InlineData("Host=/run/postgresql;Database=t;Username=bays", SslMode.Prefer)]
    public void A_servers_certificate_is_verified_unless_somebody_says_otherwise(string connection, SslMode mode) =>
        Assert.Equal(mode, PostgresEngine.Settle(connection).SslMode);

    [Fact]
    public void What_nobody_said_of_a_connection_is_set_and_what_somebody_said_stays()
    {
        var settings = PostgresEngine.Settle("Host=localhost;Database=t");
        Assert.Equal((10, 20), (settings.Timeout, settings.MaxPoolSize));
        settings = PostgresEngine.Settle("Host=localhost;Database=t;Timeout=3;Maximum Pool Size=7");
        Assert.Equal((3, 7), (settings.Timeout, settings.MaxPoolSize));
    }

    [Fact]
    public void An_address_takes_the_names_that_servers_own_programs_use()
    {
        var settings = PostgresEngine.Settle(
            DataPlace
                .Resolve("postgres://bays@garage/tightcold?sslmode=verify-full&sslrootcert=/etc/garage.crt")
                .Connection!
        );
        Assert.Equal(SslMode.VerifyFull, settings.SslMode);
        Assert.Equal("/etc/garage.crt", settings.RootCertificate);
    }

    [Theory]
    [InlineData("The connection pool has been exhausted, either raise 'Max Pool Size'", StoreTrouble.Busy)]
    [InlineData(
        "SSL connection requested. No SSL enabled connection from this host is configured.",
        StoreTrouble.Other
    )]
    [InlineData("Failed to connect to 192.0.2.1:5432", StoreTrouble.Stopped)]
    public void What_a_server_or_its_driver_says_is_told_as_what_it_is(string said, StoreTrouble trouble)
    {
        using var engine = new PostgresEngine("Host=localhost;Database=t");
        Assert.Equal(trouble, engine.Explain(new NpgsqlException(said))!.Trouble);
    }
}
