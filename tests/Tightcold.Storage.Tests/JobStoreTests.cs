using System.Collections.Immutable;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Kits;
using Tightcold.Storage.Mapping;

namespace Tightcold.Storage.Tests;

public sealed class JobStoreTests : IDisposable
{
    private static readonly DateTimeOffset Noon = new(2031, 7, 4, 12, 0, 0, TimeSpan.FromHours(-5));
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private static readonly Car Estate = new(new Guid("11111111-0000-0000-0000-000000000001"),
        FieldBag.Empty.With("label", new FieldValue.Text("blue estate")).With("refrigerant", new FieldValue.Text("R-134a")));

    private static Entry Note(int number) => new(new Guid(number, 0, 0, new byte[8]), EntryKinds.Note, Noon.AddMinutes(number), Noon.AddMinutes(number), "Ada",
        FieldBag.Empty.With("text", new FieldValue.Text($"note {number}")));

    private static Kit KitNamed(int id, string owner, DateTimeOffset from) => new(new Guid(id, 1, 0, new byte[8]), from, FieldBag.Empty.With("owner", new FieldValue.Text(owner)), []);

    private static JobRecord Record(ImmutableArray<Kit> kits, params Entry[] entries) =>
        new(Estate, kits, new Job(new Guid("22222222-0000-0000-0000-000000000001"), Estate.Id, 1, "blows warm", Noon, 7), Journal.Create(entries).Journal!);

    private async Task<(JobStore Store, Job Job)> OpenAsync()
    {
        var store = await JobStore.OpenAsync(folder.Path, Stop);
        await store.SaveCarAsync(Estate, Stop);
        return (store, await store.AddJobAsync(new Job(Guid.NewGuid(), Estate.Id, 0, "blows warm", Noon, 7), Stop));
    }

    [Fact]
    public async Task The_tables_are_as_the_model_wants_them_and_no_migration_is_pending()
    {
        await JobStore.OpenAsync(folder.Path, Stop);
        await using var database = new JournalDatabase(new DbContextOptionsBuilder<JournalDatabase>().UseSqlite($"Data Source={DataFolder.DataFile(folder.Path)}").Options);
        Assert.False(database.Database.HasPendingModelChanges());
        Assert.Empty(await database.Database.GetPendingMigrationsAsync(Stop));
    }

    [Fact]
    public async Task The_file_keeps_a_write_ahead_log_and_waits_for_the_disk()
    {
        await JobStore.OpenAsync(folder.Path, Stop);
        await using var database = new JournalDatabase(new DbContextOptionsBuilder<JournalDatabase>()
            .UseSqlite($"Data Source={DataFolder.DataFile(folder.Path)}").AddInterceptors(SafeConnection.Instance).Options);
        await database.Database.OpenConnectionAsync(Stop);
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
    public async Task Jobs_are_numbered_one_after_the_other_however_many_write_at_once()
    {
        var (store, _) = await OpenAsync();
        var jobs = await Task.WhenAll(Enumerable.Range(0, 12).Select(i => Task.Run(() => store.AddJobAsync(new Job(Guid.NewGuid(), Estate.Id, 0, "again", Noon, i), Stop))));
        Assert.Equal(Enumerable.Range(2, 12), jobs.Select(job => job.Number).Order());
    }

    [Fact]
    public async Task Entries_written_at_once_are_all_there_once()
    {
        var (store, job) = await OpenAsync();
        await Task.WhenAll(Enumerable.Range(1, 40).Select(i => Task.Run(() => store.AddEntriesAsync(job.Id, [Note(i), Note(i + 1)], Stop))));
        var record = await store.RecordAsync(job.Number, Stop);
        Assert.Equal(Enumerable.Range(1, 41).Select(Note), record!.Journal.All);
    }

    [Fact]
    public async Task Entries_come_all_or_none()
    {
        var (store, job) = await OpenAsync();
        await store.AddEntriesAsync(job.Id, [Note(1)], Stop);
        await Assert.ThrowsAsync<StoreException>(() => store.AddEntriesAsync(job.Id, [Note(2), Note(1) with { Who = "Bo" }], Stop));
        Assert.Equal([Note(1)], (await store.RecordAsync(job.Number, Stop))!.Journal.All);
    }

    [Fact]
    public async Task A_job_from_elsewhere_keeps_its_own_kit_and_leaves_ours_alone()
    {
        var (store, own) = await OpenAsync();
        var ours = KitNamed(1, "Ada", Noon.AddDays(-1));
        await store.AddKitAsync(ours, Stop);
        var theirs = KitNamed(2, "Bo", Noon.AddDays(-2));

        var job = await store.MergeAsync(Record([theirs], Note(1)), Stop);

        Assert.Equal(2, job.Number);
        Assert.Equal("Bo", Assert.Single((await store.RecordAsync(job.Number, Stop))!.Kits).Fields.Text("owner"));
        Assert.Equal("Ada", Assert.Single((await store.RecordAsync(own.Number, Stop))!.Kits).Fields.Text("owner"));
        Assert.Equal("Ada", Assert.Single(await store.KitsAsync(Stop)).Fields.Text("owner"));
    }

    [Fact]
    public async Task Work_on_a_job_from_elsewhere_uses_what_our_kit_became_since()
    {
        var (store, _) = await OpenAsync();
        await store.AddKitAsync(KitNamed(1, "Ada", Noon.AddDays(-1)), Stop);
        var job = await store.MergeAsync(Record([KitNamed(2, "Bo", Noon.AddDays(-2))], Note(1)), Stop);
        await store.AddKitAsync(KitNamed(3, "Ada", Noon.AddDays(1)), Stop);
        var record = (await store.RecordAsync(job.Number, Stop))!;
        Assert.Equal("Bo", record.KitAt(Noon).Fields.Text("owner"));
        Assert.Equal("Ada", record.KitAt(Noon.AddDays(2)).Fields.Text("owner"));
    }

    [Fact]
    public async Task Two_devices_merge_to_the_union_and_a_second_merge_changes_nothing()
    {
        var store = await JobStore.OpenAsync(folder.Path, Stop);
        var kit = KitNamed(1, "Ada", Noon.AddDays(-1));
        await store.MergeAsync(Record([kit], Note(1), Note(2)), Stop);
        var job = await store.MergeAsync(Record([kit, KitNamed(2, "Ada", Noon)], Note(2), Note(3)), Stop);
        var once = await store.RecordAsync(job.Number, Stop);
        await store.MergeAsync(Record([kit], Note(1), Note(2)), Stop);
        var twice = await store.RecordAsync(job.Number, Stop);

        Assert.Equal([Note(1), Note(2), Note(3)], once!.Journal.All);
        Assert.Equal(once.Journal.All, twice!.Journal.All);
        Assert.Equal(2, twice.Kits.Length);
        Assert.Single(await store.JobsAsync(Stop));
    }

    [Fact]
    public async Task A_file_that_may_only_be_read_is_told_in_one_sentence()
    {
        await JobStore.OpenAsync(folder.Path, Stop);
        var path = DataFolder.DataFile(folder.Path);
        await using var connection = new SqliteConnection($"Data Source={path};Mode=ReadOnly");
        await connection.OpenAsync(Stop);
        await using var command = connection.CreateCommand();
        command.CommandText = "DELETE FROM entries";
        var refused = await Assert.ThrowsAsync<SqliteException>(() => command.ExecuteNonQueryAsync(Stop));
        Assert.Contains("read-only", StoreException.From(refused, path).Message, StringComparison.Ordinal);
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
        var trouble = await Assert.ThrowsAsync<StoreException>(async () => await (await JobStore.OpenAsync(folder.Path, Stop)).RecordAsync(job.Number, Stop));
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
}
