using Tightcold.Jobs.Journals;
using System.Globalization;
using Microsoft.Data.Sqlite;
using Tightcold.App.Books;
using Tightcold.App.Demo;
using Tightcold.Jobs.Photos;
using Tightcold.Storage.Engines;
using Tightcold.Storage.Safety;

namespace Tightcold.Storage.Tests;

/// <summary>Backup, restore and check of a data file; and disks that are full or may only be read.</summary>
public sealed class RestoreTests : IDisposable
{
    private static readonly DateTimeOffset Noon = new(2031, 7, 4, 12, 0, 0, TimeSpan.Zero);
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private Task<RestoreReport> RestoreAsync(string file) =>
        DataRestore.RunAsync(new DataPlace(folder.Path, null), file, LedgerClosure.Of, Noon, Stop);

    private async Task<string> BackupOfDemoAsync()
    {
        using var store = await JobStore.OpenAsync(folder.Path, Stop);
        await DemoScenario.PlayAsync(store, null, Stop);
        return (await store.BackupAsync(folder.File("saved.db"), LedgerClosure.Of, Stop)).File;
    }

    private async Task SqlAsync(string sql)
    {
        await using var connection = new SqliteConnection(
            $"Data Source={DataFolder.DataFile(folder.Path)};Pooling=False"
        );
        await connection.OpenAsync(Stop);
        await using var command = connection.CreateCommand();
        command.CommandText = "PRAGMA foreign_keys=OFF; " + sql;
        await command.ExecuteNonQueryAsync(Stop);
    }

    [Fact]
    public async Task A_photo_goes_into_the_backup_and_a_changed_byte_of_it_is_named()
    {
        await BackupOfDemoAsync();
        using (var store = await JobStore.OpenAsync(folder.Path, Stop))
        {
            var record = (await store.RecordAsync(1, Stop))!;
            var photo = new Photo(new Guid(7, 7, 7, new byte[8]), record.Journal.All[0].Id, Noon, [0xFF, 0xD8, 1]);
            await store.AddPhotoAsync(record.Job.Id, photo, Stop);
            await store.BackupAsync(folder.File("with-photo.db"), LedgerClosure.Of, Stop);
        }
        await SqlAsync("UPDATE photos SET body_base64 = '/9gC'");
        Assert.Contains("is not as it was kept", Assert.Single((await CheckAsync()).All), StringComparison.Ordinal);
        await SqlAsync("UPDATE photos SET entry_id = job_id");
        Assert.Contains("Photos without an entry: 1.", (await CheckAsync()).All);
        await RestoreAsync(folder.File("with-photo.db"));
        Assert.Empty((await CheckAsync()).All);
        using var restored = await JobStore.OpenAsync(folder.Path, Stop);
        var job = (await restored.RecordAsync(1, Stop))!.Job;
        Assert.Equal([0xFF, 0xD8, 1], Assert.Single(await restored.PhotosAsync(job.Id, Stop)).Body);
    }

    private async Task<CheckReport> CheckAsync()
    {
        using var store = await JobStore.OpenAsync(folder.Path, Stop);
        return await store.CheckAsync(LedgerClosure.Of, Stop);
    }

    [Fact]
    public async Task A_restore_brings_back_what_was_saved_and_keeps_what_was_there()
    {
        var saved = await BackupOfDemoAsync();
        await SqlAsync("DELETE FROM entries");
        var report = await RestoreAsync(saved);
        Assert.Empty((await CheckAsync()).All);
        Assert.Equal(report.Check.Entries, (await CheckAsync()).Entries);
        Assert.Equal(folder.File("tightcold-before-restore-2031-07-04-120000.db"), report.KeptAs);
        using (var store = await JobStore.OpenAsync(folder.Path, Stop))
        {
            // Readers still keep no writer waiting.
            Assert.True(File.Exists(DataFolder.DataFile(folder.Path) + "-wal"));
        }
        // And back again, under another name.
        var second = await RestoreAsync(saved);
        Assert.EndsWith("120000-2.db", second.KeptAs, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_damaged_data_file_is_kept_as_it_is_and_replaced()
    {
        var saved = await BackupOfDemoAsync();
        JobStore.Release();
        var path = DataFolder.DataFile(folder.Path);
        var broken = await File.ReadAllBytesAsync(path, Stop);
        broken.AsSpan(4096).Fill(0xA5);
        await File.WriteAllBytesAsync(path, broken, Stop);
        var report = await RestoreAsync(saved);
        Assert.Equal(broken, await File.ReadAllBytesAsync(report.KeptAs!, Stop));
        Assert.Empty((await CheckAsync()).All);
    }

    [Fact]
    public async Task Data_in_use_are_not_replaced()
    {
        var saved = await BackupOfDemoAsync();
        using var running = await JobStore.OpenAsync(folder.Path, Stop);
        Assert.Contains(
            "are in use",
            (await Assert.ThrowsAsync<StoreException>(() => RestoreAsync(saved))).Message,
            StringComparison.Ordinal
        );
        Assert.NotNull(await running.RecordAsync(1, Stop));
    }

    [Fact]
    public async Task A_copy_of_data_that_are_not_sound_is_not_kept_as_a_backup()
    {
        await BackupOfDemoAsync();
        await SqlAsync("DELETE FROM jobs WHERE number = 1");
        using var store = await JobStore.OpenAsync(folder.Path, Stop);
        Assert.Contains(
            "The copy is not sound",
            (
                await Assert.ThrowsAsync<StoreException>(() =>
                    store.BackupAsync(folder.File("tonight.db"), LedgerClosure.Of, Stop)
                )
            ).Message,
            StringComparison.Ordinal
        );
        Assert.False(File.Exists(folder.File("tonight.db")));
    }

    [Theory]
    [InlineData("damaged")]
    [InlineData("cut short")]
    [InlineData("not a database")]
    [InlineData("somebody else's")]
    [InlineData("newer")]
    public async Task A_backup_that_is_not_sound_is_refused_and_nothing_is_touched(string how)
    {
        var saved = await BackupOfDemoAsync();
        await SpoilAsync(saved, how);
        JobStore.Release();
        var path = DataFolder.DataFile(folder.Path);
        var before = await File.ReadAllBytesAsync(path, Stop);
        var trouble = await Assert.ThrowsAsync<StoreException>(() => RestoreAsync(saved));
        Assert.Matches("nothing was changed|left untouched|left as it is", trouble.Message);
        Assert.Equal(before, await File.ReadAllBytesAsync(path, Stop));
        Assert.DoesNotContain(Directory.EnumerateFileSystemEntries(folder.Path), entry =>
            entry.Contains("restor", StringComparison.Ordinal)
        );
    }

    [Theory]
    [InlineData(
        "UPDATE entries SET written_at = 'yesterday' WHERE job_id = (SELECT id FROM jobs WHERE number = 1) AND sequence = 3",
        true
    )]
    [InlineData(
        "UPDATE entries SET kind = 'unheard-of' WHERE job_id = (SELECT id FROM jobs WHERE number = 1) AND sequence = 3",
        true
    )]
    [InlineData("UPDATE jobs SET opened_at = '2031-13-45' WHERE number = 1", true)]
    [InlineData(
        "UPDATE entries SET supersedes = 'that one' WHERE job_id = (SELECT id FROM jobs WHERE number = 1) AND sequence = 3",
        true
    )]
    [InlineData("UPDATE job_lines SET opened_at = 'then' WHERE number = 1", false)]
    [InlineData("UPDATE job_lines SET last_entry_at = 'then' WHERE number = 1", false)]
    [InlineData("UPDATE kits SET from_time = 'since ever'", false)]
    public async Task One_bad_cell_is_named_and_keeps_nobody_from_the_other_jobs(string sql, bool unreadable)
    {
        await BackupOfDemoAsync();
        using (var store = await JobStore.OpenAsync(folder.Path, Stop))
        {
            var record = (await store.RecordAsync(1, Stop))!;
            var other = await store.AddJobAsync(
                record.Job with
                {
                    Id = Guid.NewGuid(),
                    OpenedAt = record.Job.OpenedAt.AddYears(1),
                },
                Stop
            );
            Assert.Equal(2, other.Number);
        }
        JobStore.Release();
        await SqlAsync(sql);
        var check = await CheckAsync();
        Assert.False(check.IsClean);
        Assert.Empty(check.Damage);
        Assert.Equal(2, check.Jobs);
        using (var store = await JobStore.OpenAsync(folder.Path, Stop))
        {
            var (leftOut, read) = (new List<string>(), new List<int>());
            await foreach (var record in store.RecordsAsync(null, leftOut, Stop))
                read.Add(record.Job.Number);
            Assert.Equal(unreadable ? [2] : [2, 1], read);
            Assert.Equal(unreadable ? 1 : 0, leftOut.Count);
            Assert.All(leftOut, sentence =>
                Assert.StartsWith("Job 1 cannot be read: ", sentence, StringComparison.Ordinal)
            );
            Assert.NotNull(await store.RecordAsync(2, Stop));
            Assert.Equal(2, (await store.JobsAsync(new(), Stop)).Jobs.Length);
            if (unreadable)
                Assert.StartsWith(
                    "Job 1 cannot be read: ",
                    (await Assert.ThrowsAsync<StoreException>(() => store.RecordAsync(1, Stop))).Message,
                    StringComparison.Ordinal
                );
            var saved = await store.BackupAsync(folder.File("second.db"), LedgerClosure.Of, Stop);
            Assert.Equal(check.All, saved.Check.All);
        }
        JobStore.Release();
        // It comes back as it was, and is named again.
        var restored = await RestoreAsync(folder.File("second.db"));
        Assert.Equal(check.All, restored.Check.All);
        Assert.Equal(check.All, (await CheckAsync()).All);
    }

    private static async Task SpoilAsync(string file, string how)
    {
        var bytes = await File.ReadAllBytesAsync(file, Stop);
        switch (how)
        {
            case "damaged":
                bytes.AsSpan(4096, 8192).Fill(0xA5);
                break;
            case "cut short":
                bytes = bytes[..(bytes.Length / 2)];
                break;
            case "not a database":
                bytes = "gauge readings of July"u8.ToArray();
                break;
            default:
                await using (var connection = new SqliteConnection($"Data Source={file};Pooling=False"))
                {
                    await connection.OpenAsync(Stop);
                    await using var command = connection.CreateCommand();
                    command.CommandText = how switch
                    {
                        "newer" => "INSERT INTO \"__EFMigrationsHistory\" VALUES ('29990101000000_Later', '99.0')",
                        _ => "ALTER TABLE \"__EFMigrationsHistory\" RENAME TO recipes",
                    };
                    await command.ExecuteNonQueryAsync(Stop);
                }
                return;
        }
        await File.WriteAllBytesAsync(file, bytes, Stop);
    }

    [Theory]
    [InlineData("DELETE FROM jobs", "points to something that is not there")]
    [InlineData("DELETE FROM job_lines", "")]
    [InlineData("UPDATE job_lines SET state = 'waiting'", "the list of jobs says something else")]
    [InlineData("UPDATE entries SET sequence = 900 WHERE sequence = 2", "not numbered one after the other")]
    [InlineData("UPDATE entries SET fields_json = '{' WHERE sequence = 4", "cannot be read")]
    [InlineData("UPDATE entries SET who = 'Adb' WHERE sequence = 4", "the chain of its journal breaks at")]
    [InlineData(
        "UPDATE entries SET fields_json = replace(fields_json, '\"typed\":\"', '\"typed\":\"0')",
        "the chain of its journal breaks at"
    )]
    [InlineData(
        "UPDATE entries SET observed_at = replace(observed_at, ':0', ':1') WHERE sequence = 4",
        "the chain of its journal breaks at"
    )]
    [InlineData("UPDATE entries SET digest = '' WHERE sequence = 4", "")]
    [InlineData(
        "UPDATE entries SET digest = replace(digest, 'a', 'b') WHERE sequence = 4",
        "the chain of its journal breaks at"
    )]
    [InlineData("UPDATE jobs SET complaint = replace(complaint, 'a', 'e')", "is not as it was written down")]
    [InlineData("UPDATE jobs SET seed = seed + 1", "is not as it was written down")]
    [InlineData("UPDATE cars SET fields_json = replace(fields_json, 'rey', 'ray')", "is not as it was written down")]
    [InlineData("UPDATE kits SET body_json = replace(body_json, 'e', 'i')", "is not as it was written down")]
    [InlineData("UPDATE job_lines SET search_key = 'X'", "the list of jobs says something else")]
    [InlineData(
        "UPDATE entries SET supersedes = '99999999-0000-0000-0000-000000000000', reason = 'x' WHERE sequence = 5",
        "which is not there"
    )]
    public async Task A_check_finds_what_does_not_belong_together(string sql, string sentence)
    {
        await BackupOfDemoAsync();
        await SqlAsync(sql);
        var found = (await CheckAsync()).All.ToList();
        // A list that lost its lines is made anew when the data are opened.
        if (sentence.Length == 0)
            Assert.Empty(found);
        else
            Assert.Contains(found, line => line.Contains(sentence, StringComparison.Ordinal));
    }

    /// <summary>A full disk by SQLite's own limit of pages: the same code path, result code 13, without filling
    /// one.</summary>
    [Fact]
    public async Task A_full_disk_is_told_in_a_sentence_and_what_was_saved_stays()
    {
        await BackupOfDemoAsync();
        var pages = new FileInfo(folder.File("saved.db")).Length / 4096 + 8;
        using var store = await JobStore.PreparedAsync(
            await JobStore.FileAsync(
                folder.Path,
                string.Create(CultureInfo.InvariantCulture, $"PRAGMA max_page_count={pages};"),
                Stop
            ),
            Stop
        );
        var record = (await store.RecordAsync(1, Stop))!;
        var last = record.Journal.All[^1];
        var (saved, trouble) = (record.Journal.All.Length, (StoreException?)null);
        for (var i = 0; i < 500 && trouble is null; i++)
        {
            try
            {
                await store.AddEntriesAsync(
                    record.Job.Id,
                    [
                        last with
                        {
                            Id = Guid.NewGuid(),
                            Kind = "note",
                            Fields = Jobs.Fields.FieldBag.Empty.With(
                                "text",
                                new Jobs.Fields.FieldValue.Text(new string('n', 1500))
                            ),
                        },
                    ],
                    Stop
                );
                saved++;
            }
            catch (StoreException full)
            {
                trouble = full;
            }
        }
        Assert.Contains("The disk is full; nothing was written", trouble?.Message, StringComparison.Ordinal);
        Assert.Equal(StoreTrouble.Full, trouble?.Trouble);
        Assert.Equal(saved, (await store.RecordAsync(1, Stop))!.Journal.All.Length);
        store.Dispose();
        Assert.Empty((await CheckAsync()).All);
    }

    [Fact]
    public async Task Data_that_may_only_be_read_are_told_in_a_sentence_and_can_still_be_read()
    {
        var saved = await BackupOfDemoAsync();
        using var store = new JobStore(new SqliteEngine(saved, readOnly: true));
        var record = (await store.RecordAsync(1, Stop))!;
        var trouble = await Assert.ThrowsAsync<StoreException>(() =>
            store.AddEntriesAsync(record.Job.Id, [record.Journal.All[0] with { Id = Guid.NewGuid() }], Stop)
        );
        Assert.Contains("read-only", trouble.Message, StringComparison.Ordinal);
        Assert.Equal(record.Journal.All, (await store.RecordAsync(1, Stop))!.Journal.All);
    }

    [Fact]
    public async Task A_backup_that_cannot_be_finished_leaves_neither_a_half_file_nor_changed_data()
    {
        await BackupOfDemoAsync();
        using var store = await JobStore.OpenAsync(folder.Path, Stop);
        var trouble = await Assert.ThrowsAsync<StoreException>(() =>
            store.BackupAsync(Path.Combine(folder.File("saved.db"), "inside.db"), null, Stop)
        );
        Assert.Contains("is as it was", trouble.Message, StringComparison.Ordinal);
        Assert.Empty((await CheckAsync()).All);
    }
}
