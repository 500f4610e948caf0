using System.Collections.Immutable;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Kits;
using Tightcold.Jobs.Photos;
using Tightcold.Quantities;

namespace Tightcold.Storage.Tests;

/// <summary>What holds wherever the data are. Each place brings itself.</summary>
public abstract class JobStoreTests : IDisposable
{
    protected static readonly DateTimeOffset Noon = new(2031, 7, 4, 12, 0, 0, TimeSpan.FromHours(-5));

    private readonly List<JobStore> opened = [];

    /// <summary>The place of this test's data, as a person writes it.</summary>
    protected abstract Task<string> PlaceAsync();

    /// <summary>Another program on the same data.</summary>
    protected async Task<JobStore> OpenStoreAsync()
    {
        opened.Add(await JobStore.OpenAsync(await PlaceAsync(), Stop));
        return opened[^1];
    }

    public void Dispose()
    {
        foreach (var store in opened)
            store.Dispose();
        Dispose(true);
        GC.SuppressFinalize(this);
    }

    protected virtual void Dispose(bool disposing) { }

    protected static CancellationToken Stop => TestContext.Current.CancellationToken;

    protected static readonly Car Estate = new(
        new Guid("11111111-0000-0000-0000-000000000001"),
        FieldBag
            .Empty.With("label", new FieldValue.Text("blue estate"))
            .With("refrigerant", new FieldValue.Text("R-134a"))
    );

    protected static Entry Note(int number) =>
        new(
            new Guid(number, 0, 0, new byte[8]),
            EntryKinds.Note,
            Noon.AddMinutes(number),
            Noon.AddMinutes(number),
            "Ada",
            FieldBag.Empty.With("text", new FieldValue.Text($"note {number}"))
        );

    protected static Entry State(int number, string state, string? waitingFor = null) =>
        Note(number) with
        {
            Kind = EntryKinds.JobState,
            Fields = waitingFor is null
                ? FieldBag.Empty.With("state", new FieldValue.Text(state))
                : FieldBag
                    .Empty.With("state", new FieldValue.Text(state))
                    .With("waiting-for", new FieldValue.Text(waitingFor)),
        };

    private static Entry Weighed(int number) =>
        Note(number) with
        {
            Kind = EntryKinds.ScaleReading,
            Fields = FieldBag
                .Empty.With("container", new FieldValue.Text("A"))
                .With("gross", new FieldValue.Quantity(new(QuantityKind.Mass, 0.4), "400 g")),
        };

    protected static Kit KitNamed(int id, string owner, DateTimeOffset from) =>
        new(new Guid(id, 1, 0, new byte[8]), from, FieldBag.Empty.With("owner", new FieldValue.Text(owner)), []);

    protected static JobRecord Record(ImmutableArray<Kit> kits, params Entry[] entries) =>
        new(
            Estate,
            kits,
            new Job(new Guid("22222222-0000-0000-0000-000000000001"), Estate.Id, 1, "blows warm", Noon, 7),
            Journal.Create(entries).Journal!
        );

    protected async Task<(JobStore Store, Job Job)> OpenAsync()
    {
        var store = await OpenStoreAsync();
        await store.SaveCarAsync(Estate, Stop);
        return (store, await store.AddJobAsync(new Job(Guid.NewGuid(), Estate.Id, 0, "blows warm", Noon, 7), Stop));
    }

    [Fact]
    public async Task Jobs_are_numbered_one_after_the_other_however_many_write_at_once()
    {
        var (store, _) = await OpenAsync();
        var jobs = await Task.WhenAll(
            Enumerable
                .Range(0, 12)
                .Select(i =>
                    Task.Run(() => store.AddJobAsync(new Job(Guid.NewGuid(), Estate.Id, 0, "again", Noon, i), Stop))
                )
        );
        Assert.Equal(Enumerable.Range(2, 12), jobs.Select(job => job.Number).Order());
    }

    [Fact]
    public async Task A_job_sent_again_because_the_answer_got_lost_is_the_job_that_is_there()
    {
        var (store, _) = await OpenAsync();
        var sent = new Job(Guid.NewGuid(), Estate.Id, 0, "hisses", Noon, 8);
        var first = await store.AddJobAsync(sent, Stop);
        Assert.Equal(first, await store.AddJobAsync(sent, Stop));
        Assert.Equal(2, (await store.JobsAsync(new JobSearch(), Stop)).Jobs.Length);
    }

    [Fact]
    public async Task What_another_workshop_drew_from_its_cans_is_not_taken_off_ours()
    {
        var (store, own) = await OpenAsync();
        await store.AddKitAsync(KitNamed(1, "Ada", Noon.AddDays(-1)), Stop);
        await store.AddEntriesAsync(own.Id, [Weighed(1)], Stop);
        await store.MergeAsync(Record([KitNamed(2, "Bo", Noon.AddDays(-2))], Weighed(2)), Stop);
        var next = await store.AddJobAsync(new Job(Guid.NewGuid(), Estate.Id, 0, "again", Noon, 8), Stop);
        var use = Assert.Single(await store.ContainerUsesAsync(next.Number, 10, Stop));
        Assert.Equal((own.Number, Weighed(1)), (use.Job, Assert.Single(use.Journal.All)));
    }

    [Fact]
    public async Task Entries_written_at_once_are_all_there_once()
    {
        var (store, job) = await OpenAsync();
        await Task.WhenAll(
            Enumerable
                .Range(1, 40)
                .Select(i => Task.Run(() => store.AddEntriesAsync(job.Id, [Note(i), Note(i + 1)], Stop)))
        );
        var record = await store.RecordAsync(job.Number, Stop);
        Assert.Equal(Enumerable.Range(1, 41).Select(Note), record!.Journal.All);
    }

    [Fact]
    public async Task Entries_come_all_or_none()
    {
        var (store, job) = await OpenAsync();
        await store.AddEntriesAsync(job.Id, [Note(1)], Stop);
        await Assert.ThrowsAsync<StoreException>(() =>
            store.AddEntriesAsync(job.Id, [Note(2), Note(1) with { Who = "Bo" }], Stop)
        );
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
        var store = await OpenStoreAsync();
        var kit = KitNamed(1, "Ada", Noon.AddDays(-1));
        await store.MergeAsync(Record([kit], Note(1), Note(2)), Stop);
        var job = await store.MergeAsync(Record([kit, KitNamed(2, "Ada", Noon)], Note(2), Note(3)), Stop);
        var once = await store.RecordAsync(job.Number, Stop);
        await store.MergeAsync(Record([kit], Note(1), Note(2)), Stop);
        var twice = await store.RecordAsync(job.Number, Stop);

        Assert.Equal([Note(1), Note(2), Note(3)], once!.Journal.All);
        Assert.Equal(once.Journal.All, twice!.Journal.All);
        Assert.Equal(2, twice.Kits.Length);
        Assert.Single((await store.JobsAsync(new JobSearch(), Stop)).Jobs);
    }

    [Fact]
    public async Task The_offset_and_the_last_digit_of_a_moment_are_kept()
    {
        var (store, job) = await OpenAsync();
        var entry = Note(1) with
        {
            ObservedAt = new DateTimeOffset(2031, 7, 4, 9, 30, 15, TimeSpan.FromMinutes(345)).AddTicks(1234567),
            WrittenAt = Noon.AddTicks(1),
        };
        await store.AddEntriesAsync(job.Id, [entry], Stop);
        var read = Assert.Single((await store.RecordAsync(job.Number, Stop))!.Journal.All);
        Assert.Equal(
            (entry.ObservedAt.Ticks, entry.ObservedAt.Offset, entry.WrittenAt.Ticks),
            (read.ObservedAt.Ticks, read.ObservedAt.Offset, read.WrittenAt.Ticks)
        );
    }

    /// <summary>Two programs of two bays, each with several hands.</summary>
    [Fact]
    public async Task Programs_that_write_into_one_job_at_once_lose_nothing_and_double_nothing()
    {
        var (first, job) = await OpenAsync();
        var second = await OpenStoreAsync();
        // Each note is sent twice, once by each program, as after an answer that got lost.
        await Task.WhenAll(
            Enumerable
                .Range(1, 60)
                .SelectMany(i =>
                    new[] { first, second }.Select(store =>
                        Task.Run(() => store.AddEntriesAsync(job.Id, [Note(i)], Stop))
                    )
                )
        );
        Assert.Equal(Enumerable.Range(1, 60).Select(Note), (await second.RecordAsync(job.Number, Stop))!.Journal.All);
        Assert.Equal(60, Assert.Single((await first.JobsAsync(new JobSearch(), Stop)).Jobs).Entries);
        Assert.Empty((await first.CheckAsync(null, Stop)).All);
    }

    [Fact]
    public async Task Programs_that_open_jobs_at_once_give_each_its_own_number()
    {
        var (first, _) = await OpenAsync();
        var second = await OpenStoreAsync();
        var jobs = await Task.WhenAll(
            Enumerable
                .Range(0, 20)
                .Select(i =>
                    Task.Run(() =>
                        (i % 2 == 0 ? first : second).AddJobAsync(
                            new Job(Guid.NewGuid(), Estate.Id, 0, "again", Noon, i),
                            Stop
                        )
                    )
                )
        );
        Assert.Equal(Enumerable.Range(2, 20), jobs.Select(job => job.Number).Order());
    }

    [Fact]
    public async Task The_list_of_jobs_says_what_the_journals_say()
    {
        var (store, job) = await OpenAsync();
        await store.AddEntriesAsync(job.Id, [Note(1), State(2, "waiting", "compressor")], Stop);
        var waiting = Assert.Single((await store.JobsAsync(new JobSearch { State = "waiting" }, Stop)).Jobs);
        Assert.Equal(("compressor", 2, Note(2).ObservedAt), (waiting.WaitingFor, waiting.Entries, waiting.LastEntryAt));

        // A struck state gives way to what stood before; a corrected one to the correction.
        await store.AddEntriesAsync(
            job.Id,
            [
                Note(3) with
                {
                    Kind = EntryKinds.Struck,
                    Fields = FieldBag.Empty,
                    Supersedes = State(2, "").Id,
                    Reason = "wrong car",
                },
            ],
            Stop
        );
        var struck = Assert.Single((await store.JobsAsync(new JobSearch(), Stop)).Jobs);
        // What did not happen dates nothing, and that it was struck is no work on the car.
        Assert.Equal(("open", Note(1).ObservedAt), (struck.State, struck.LastEntryAt));
        await store.AddEntriesAsync(
            job.Id,
            [
                State(4, "waiting", "drier"),
                State(5, "closed") with
                {
                    Supersedes = State(4, "").Id,
                    Reason = "it was in stock",
                },
            ],
            Stop
        );
        Assert.Equal(new Dictionary<string, int> { ["closed"] = 1 }, await store.CountsAsync(Stop));
        Assert.Equal(
            JobSummary.Of((await store.RecordAsync(job.Number, Stop))!),
            Assert.Single((await store.JobsAsync(new JobSearch(), Stop)).Jobs)
        );
    }

    [Fact]
    public async Task Words_find_a_job_in_any_case_by_car_complaint_and_what_it_waits_for()
    {
        var (store, job) = await OpenAsync();
        var other = Estate with
        {
            Id = Guid.NewGuid(),
            Fields = Estate.Fields.With("label", new FieldValue.Text("Été 100% van_1")),
        };
        await store.SaveCarAsync(other, Stop);
        var second = await store.AddJobAsync(new Job(Guid.NewGuid(), other.Id, 0, "hisses", Noon, 8), Stop);
        await store.AddEntriesAsync(second.Id, [State(1, "waiting", "condenser")], Stop);
        async Task<int[]> FindAsync(string words) =>
            [.. (await store.JobsAsync(new JobSearch { Words = words }, Stop)).Jobs.Select(found => found.Number)];

        Assert.Equal([job.Number], await FindAsync("WARM Estate"));
        Assert.Equal([second.Number], await FindAsync("été"));
        Assert.Equal([second.Number], await FindAsync("Condenser hiss"));
        // A sign that means "anything" to a database means itself to a person.
        Assert.Equal([second.Number], await FindAsync("100% n_1"));
        Assert.Empty(await FindAsync("e%e"));
        Assert.Empty(await FindAsync("warm condenser"));
        Assert.Equal([second.Number, job.Number], await FindAsync("  "));

        await store.SaveCarAsync(
            Estate with
            {
                Fields = Estate.Fields.With("label", new FieldValue.Text("green estate")),
            },
            Stop
        );
        Assert.Equal([job.Number], await FindAsync("green"));
        Assert.Empty(await FindAsync("blue"));
        Assert.Equal(
            ["green estate", "Été 100% van_1"],
            (await store.CarsAsync("", 0, 10, Stop)).Select(car => car.Label)
        );
        Assert.Equal("Été 100% van_1", Assert.Single(await store.CarsAsync("VAN", 0, 10, Stop)).Label);
        Assert.Single(await store.CarsAsync("", 1, 1, Stop));
    }

    [Fact]
    public async Task A_list_comes_in_parts_without_gap_or_repeat()
    {
        var (store, _) = await OpenAsync();
        for (var i = 0; i < 11; i++)
            await store.AddJobAsync(new Job(Guid.NewGuid(), Estate.Id, 0, "again", Noon, i), Stop);
        var seen = new List<int>();
        for (int? before = null; ; )
        {
            var part = await store.JobsAsync(
                new JobSearch
                {
                    CarId = Estate.Id,
                    Before = before,
                    Most = 5,
                },
                Stop
            );
            seen.AddRange(part.Jobs.Select(job => job.Number));
            if (!part.More)
                break;
            before = part.Jobs[^1].Number;
        }
        Assert.Equal(Enumerable.Range(1, 12).Reverse(), seen);
        var records = new List<int>();
        await foreach (var record in store.RecordsAsync(null, null, Stop))
            records.Add(record.Job.Number);
        Assert.Equal(seen, records);
    }

    [Fact]
    public async Task Corrections_in_a_circle_are_refused_before_they_make_a_job_unreadable()
    {
        var (store, job) = await OpenAsync();
        await store.AddEntriesAsync(job.Id, [Note(1) with { Supersedes = Note(2).Id, Reason = "x" }], Stop);
        await Assert.ThrowsAsync<StoreException>(() =>
            store.AddEntriesAsync(job.Id, [Note(2) with { Supersedes = Note(1).Id, Reason = "y" }], Stop)
        );
        Assert.Single((await store.RecordAsync(job.Number, Stop))!.Journal.All);
    }

    [Fact]
    public async Task The_chain_grows_by_arrival_and_is_the_same_wherever_the_job_is_new()
    {
        var (store, job) = await OpenAsync();
        await store.AddEntriesAsync(job.Id, [Note(5), Note(4)], Stop);
        await store.AddEntriesAsync(job.Id, [Note(1)], Stop);
        // Once more: nothing is added, and the chain stays.
        await store.AddEntriesAsync(job.Id, [Note(4), Note(1)], Stop);
        var record = (await store.RecordAsync(job.Number, Stop))!;
        Assert.Equal([Note(5).Id, Note(4).Id, Note(1).Id], record.Chain.Select(link => link.Entry));
        Assert.Equal(JournalChain.Of(record.Job, [Note(5), Note(4), Note(1)]), record.Chain);
        using var folder = new TemporaryFolder();
        using var elsewhere = await JobStore.OpenAsync(folder.Path, Stop);
        var there = await elsewhere.MergeAsync(record, Stop);
        Assert.Equal(record.Chain, (await elsewhere.RecordAsync(there.Number, Stop))!.Chain);
        // What another device wrote earlier comes in behind, and changes no link that was there.
        await elsewhere.AddEntriesAsync(job.Id, [Note(2)], Stop);
        await store.AddEntriesAsync(job.Id, [Note(9)], Stop);
        await store.MergeAsync((await elsewhere.RecordAsync(there.Number, Stop))!, Stop);
        var both = (await store.RecordAsync(job.Number, Stop))!;
        Assert.Equal(record.Chain, both.Chain[..3]);
        Assert.Equal([Note(9).Id, Note(2).Id], both.Chain[3..].Select(link => link.Entry));
        Assert.Null(JournalChain.Broken(both));
        Assert.Empty((await store.CheckAsync(null, Stop)).All);
    }

    [Fact]
    public async Task A_backup_taken_while_others_write_is_of_one_moment_and_can_be_restored()
    {
        var (store, job) = await OpenAsync();
        await store.AddKitAsync(KitNamed(1, "Ada", Noon.AddDays(-1)), Stop);
        await store.MergeAsync(Record([KitNamed(2, "Bo", Noon.AddDays(-2))], Note(1000)), Stop);
        using var folder = new TemporaryFolder();
        using var enough = CancellationTokenSource.CreateLinkedTokenSource(Stop);
        var written = 0;
        var writing = Task.Run(
            async () =>
            {
                for (var i = 1; !enough.IsCancellationRequested; i++)
                {
                    await store.AddEntriesAsync(job.Id, [Note(2 * i), Note(2 * i + 1)], Stop);
                    written = i;
                }
            },
            Stop
        );
        while (written < 3)
            await Task.Delay(5, Stop);
        var report = await store.BackupAsync(folder.File("saved.db"), null, Stop);
        await enough.CancelAsync();
        await writing;
        Assert.Empty(report.Check.All);
        Assert.Equal(["saved.db"], Directory.EnumerateFiles(folder.Path).Select(Path.GetFileName));

        using var elsewhere = new TemporaryFolder();
        var restored = await Safety.DataRestore.RunAsync(
            new DataPlace(elsewhere.Path, null),
            folder.File("saved.db"),
            null,
            Noon,
            Stop
        );
        Assert.Null(restored.KeptAs);
        using var copy = await JobStore.OpenAsync(elsewhere.Path, Stop);
        var saved = (await copy.RecordAsync(job.Number, Stop))!.Journal.All;
        // Pairs were written all or none, and the copy holds a beginning of them.
        Assert.Equal(0, saved.Length % 2);
        Assert.True(saved.Length >= 6);
        Assert.Equal(saved, (await store.RecordAsync(job.Number, Stop))!.Journal.All[..saved.Length]);
        Assert.Equal("Bo", Assert.Single((await copy.RecordAsync(2, Stop))!.Kits).Fields.Text("owner"));
    }

    /// <summary>The store takes any bytes; what a photo is, is judged before.</summary>
    private static Photo Picture(int number, Entry of) =>
        new(new Guid(number, 7, 0, new byte[8]), of.Id, Noon.AddHours(number), [0xFF, 0xD8, (byte)number, 0xFF, 0xD9]);

    [Fact]
    public async Task Photos_stay_with_their_entry_go_with_the_job_and_come_in_once()
    {
        var store = await OpenStoreAsync();
        await store.SaveCarAsync(Estate, Stop);
        var job = await store.AddJobAsync(new Job(new Guid(1, 1, 0, new byte[8]), Estate.Id, 0, "warm", Noon, 1), Stop);
        await store.AddEntriesAsync(job.Id, [Note(1), Note(2)], Stop);
        await store.AddPhotoAsync(job.Id, Picture(1, Note(1)), Stop);
        await store.AddPhotoAsync(job.Id, Picture(2, Note(2)), Stop);
        // Sent again, later, by another program.
        var other = await OpenStoreAsync();
        await other.AddPhotoAsync(job.Id, Picture(1, Note(1)) with { KeptAt = Noon.AddDays(9) }, Stop);
        Assert.Equal([Picture(1, Note(1)), Picture(2, Note(2))], await other.PhotosAsync(job.Id, Stop));
        Assert.Equal(Picture(2, Note(2)), await other.PhotoAsync(job.Id, Picture(2, Note(2)).Id, Stop));
        Assert.Null(await other.PhotoAsync(Guid.Empty, Picture(2, Note(2)).Id, Stop));
        Assert.Equal(
            [(Picture(1, Note(1)).Id, Note(1).Id), (Picture(2, Note(2)).Id, Note(2).Id)],
            await other.PhotoListAsync(job.Id, Stop)
        );
        await Assert.ThrowsAsync<StoreException>(() =>
            store.AddPhotoAsync(job.Id, Picture(1, Note(1)) with { Body = [1] }, Stop)
        );
        await Assert.ThrowsAsync<StoreException>(() => store.AddPhotoAsync(job.Id, Picture(3, Note(9)), Stop));
        Assert.Empty((await store.CheckAsync(null, Stop)).All);
        // As a file brings it: once more the same, and one that was not here.
        var record = (await store.RecordAsync(job.Number, Stop))!;
        await store.MergeAsync(record with { Photos = [Picture(1, Note(1)), Picture(4, Note(1))] }, Stop);
        Assert.Equal(3, (await store.PhotosAsync(job.Id, Stop)).Count);
    }
}
