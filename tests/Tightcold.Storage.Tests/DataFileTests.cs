using Tightcold.Jobs.Journals;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Metadata;
using Tightcold.Storage.Engines;
using Tightcold.Storage.Mapping;

namespace Tightcold.Storage.Tests;

/// <summary>The store in one file, and what only a file can suffer.</summary>
public sealed class DataFileTests : JobStoreTests
{
    private readonly TemporaryFolder folder = new();

    protected override Task<string> PlaceAsync() => Task.FromResult(folder.Path);

    protected override void Dispose(bool disposing)
    {
        base.Dispose(disposing);
        folder.Dispose();
    }

    [Fact]
    public async Task The_tables_are_as_the_model_wants_them_and_no_migration_is_pending()
    {
        await OpenStoreAsync();
        await using var database = new JournalDatabase(
            new DbContextOptionsBuilder<JournalDatabase>()
                .UseSqlite($"Data Source={DataFolder.DataFile(folder.Path)}")
                .Options
        );
        Assert.False(database.Database.HasPendingModelChanges());
        Assert.Empty(await database.Database.GetPendingMigrationsAsync(Stop));
    }

    /// <summary>The model is compiled ahead, because making it at each start costs a command a third of its time; made
    /// again with <c>dotnet ef dbcontext optimize</c> (docs/reliability.md).</summary>
    [Fact]
    public void The_model_compiled_ahead_is_the_model_as_written()
    {
        using var database = new JournalDatabase(
            new DbContextOptionsBuilder<JournalDatabase>().UseSqlite("Data Source=:memory:").Options
        );
        var compiled = Shape(database.Model).ToList();
        Assert.True(compiled.Count > 40);
        Assert.Equal(Shape(database.GetService<IDesignTimeModel>().Model), compiled);
    }

    private static IEnumerable<string> Shape(IModel model)
    {
        foreach (var table in model.GetEntityTypes().OrderBy(table => table.Name, StringComparer.Ordinal))
        {
            foreach (var column in table.GetProperties())
                yield return $"{table.GetTableName()}.{column.GetColumnName()} {column.Name} {column.ClrType} null:{column.IsNullable} concurrency:{column.IsConcurrencyToken} generated:{column.ValueGenerated} default:{column.GetDefaultValue()}";
            foreach (var key in table.GetKeys())
                yield return $"{table.GetTableName()} key {string.Join(',', key.Properties.Select(column => column.Name))}";
            foreach (var index in table.GetIndexes())
                yield return $"{table.GetTableName()} index {string.Join(',', index.Properties.Select(column => column.Name))} unique:{index.IsUnique}";
            foreach (var reference in table.GetForeignKeys())
                yield return $"{table.GetTableName()} refers {reference.PrincipalEntityType.Name} by {string.Join(',', reference.Properties.Select(column => column.Name))} one:{reference.IsUnique} {reference.DeleteBehavior}";
        }
    }

    [Fact]
    public async Task The_file_keeps_a_write_ahead_log_and_waits_for_the_disk()
    {
        await OpenStoreAsync();
        using var engine = new SqliteEngine(DataFolder.DataFile(folder.Path));
        await using var database = engine.Open();
        async Task<string?> PragmaAsync(string name)
        {
            await using var command = database.Database.GetDbConnection().CreateCommand();
            command.CommandText = "PRAGMA " + name;
            return (await command.ExecuteScalarAsync(Stop))?.ToString();
        }
        // sqlite.org/pragma.html: synchronous 2 is FULL.
        Assert.Equal("wal", await PragmaAsync("journal_mode"));
        Assert.Equal("2", await PragmaAsync("synchronous"));
        Assert.Equal("1", await PragmaAsync("foreign_keys"));
    }

    [Fact]
    public async Task A_file_that_may_only_be_read_is_told_in_one_sentence()
    {
        await OpenStoreAsync();
        var path = DataFolder.DataFile(folder.Path);
        await using var connection = new SqliteConnection($"Data Source={path};Mode=ReadOnly");
        await connection.OpenAsync(Stop);
        await using var command = connection.CreateCommand();
        command.CommandText = "DELETE FROM entries";
        var refused = await Assert.ThrowsAsync<SqliteException>(() => command.ExecuteNonQueryAsync(Stop));
        Assert.Contains("read-only", SqliteTroubles.Of(refused, path).Message, StringComparison.Ordinal);
        Assert.Equal(StoreTrouble.ReadOnly, SqliteTroubles.Of(refused, path).Trouble);
    }

    [Fact]
    public async Task A_damaged_file_is_told_in_one_sentence_and_left_as_it_is()
    {
        var (store, job) = await OpenAsync();
        await store.AddEntriesAsync(job.Id, [.. Enumerable.Range(1, 200).Select(Note)], Stop);
        JobStore.Release();
        var path = DataFolder.DataFile(folder.Path);
        var bytes = await File.ReadAllBytesAsync(path, Stop);
        // Behind the first page, which holds the header, nothing makes sense any more.
        bytes.AsSpan(4096).Fill(0xA5);
        await File.WriteAllBytesAsync(path, bytes, Stop);
        var trouble = await Assert.ThrowsAsync<StoreException>(async () =>
            await (await OpenStoreAsync()).RecordAsync(job.Number, Stop)
        );
        Assert.Contains("damaged", trouble.Message, StringComparison.Ordinal);
        JobStore.Release();
        Assert.Equal(bytes, await File.ReadAllBytesAsync(path, Stop));
    }

    [Fact]
    public void The_data_folder_is_the_one_asked_for_else_the_users_own()
    {
        Assert.Equal(folder.Path, DataFolder.Resolve(folder.Path));
        Assert.EndsWith("tightcold.db", DataFolder.DataFile(DataFolder.Resolve(null)), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_program_killed_while_upgrading_keeps_nobody_waiting()
    {
        await OpenStoreAsync();
        await using (var connection = new SqliteConnection($"Data Source={DataFolder.DataFile(folder.Path)}"))
        {
            // What a killed upgrade leaves: the mark that somebody is upgrading, and the last step not done.
            await connection.OpenAsync(Stop);
            await using var command = connection.CreateCommand();
            command.CommandText = """
                CREATE TABLE IF NOT EXISTS "__EFMigrationsLock" ("Id" INTEGER NOT NULL PRIMARY KEY, "Timestamp" TEXT NOT NULL);
                INSERT OR IGNORE INTO "__EFMigrationsLock" VALUES (1, '2031-07-04 12:00:00');
                DELETE FROM "__EFMigrationsHistory" WHERE "MigrationId" NOT LIKE '%\_First' ESCAPE '\';
                DROP TABLE photos; DROP TABLE job_lines; DROP INDEX "IX_entries_job_id_sequence"; DROP INDEX "IX_cars_label_key";
                DROP INDEX "IX_entries_unchained"; ALTER TABLE cars DROP COLUMN digest; ALTER TABLE kits DROP COLUMN digest;
                ALTER TABLE jobs DROP COLUMN digest; ALTER TABLE job_kits DROP COLUMN digest; ALTER TABLE entries DROP COLUMN digest;
                ALTER TABLE entries DROP COLUMN sequence; ALTER TABLE cars DROP COLUMN label_key; CREATE INDEX "IX_entries_job_id" ON entries (job_id);
                """;
            await command.ExecuteNonQueryAsync(Stop);
        }
        JobStore.Release();
        using var patience = CancellationTokenSource.CreateLinkedTokenSource(Stop);
        patience.CancelAfter(TimeSpan.FromMinutes(1));
        using var store = await JobStore.OpenAsync(folder.Path, patience.Token);
        Assert.Empty((await store.CheckAsync(null, Stop)).All);
    }

    [Fact]
    public async Task Programs_that_make_the_file_at_once_make_one()
    {
        var stores = await Task.WhenAll(
            Enumerable.Range(0, 6).Select(_ => Task.Run(() => JobStore.OpenAsync(folder.Path, Stop)))
        );
        await Task.WhenAll(stores.Select(store => store.SaveCarAsync(Estate with { Id = Guid.NewGuid() }, Stop)));
        Assert.Equal(6, (await stores[0].CarsAsync(Stop)).Count);
        foreach (var store in stores)
            store.Dispose();
    }

    [Fact]
    public async Task Somebody_elses_database_of_that_name_is_left_as_it_is()
    {
        var path = DataFolder.DataFile(folder.Path);
        await using (var connection = new SqliteConnection($"Data Source={path};Pooling=False"))
        {
            await connection.OpenAsync(Stop);
            await using var command = connection.CreateCommand();
            command.CommandText = "CREATE TABLE recipes (name TEXT)";
            await command.ExecuteNonQueryAsync(Stop);
        }
        var before = await File.ReadAllBytesAsync(path, Stop);
        Assert.Contains(
            "is no Tightcold data file",
            (await Assert.ThrowsAsync<StoreException>(OpenStoreAsync)).Message,
            StringComparison.Ordinal
        );
        Assert.Equal(before, await File.ReadAllBytesAsync(path, Stop));
    }
}
