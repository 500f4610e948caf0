using System.Diagnostics.CodeAnalysis;
using System.Reflection;
using System.Text;
using Tightcold.App.Desk;
using Tightcold.Jobs.Exchange;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Json;
using Tightcold.Jobs.Photos;
using Tightcold.Storage;

namespace Tightcold.LogStore.Tests.Together;

/// <summary>Somebody who works with a store of his own, by a clock of his own.</summary>
internal sealed class Bay(IJobStore store, MemoryFile? disk, int number) : IDisposable
{
    private readonly StoppedClock clock = new();
    private readonly CountedIds ids = new(number);

    public MemoryFile? Disk { get; } = disk;
    public IJobStore Store { get; private set; } = store;
    public JobDesk Desk => new(Store, clock, ids, System.Globalization.CultureInfo.InvariantCulture);

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public static Bay OfPhone(int number)
    {
        var file = new MemoryFile();
        return new(JobLog.Open(file), file, number);
    }

    public static async Task<Bay> OfLaptopAsync(string folder, int number) =>
        new(await JobStore.OpenAsync(folder, Stop), null, number);

    /// <summary>Time goes on, or the clock is set wrong.</summary>
    public void Later(int minutes) => clock.Now = clock.Now.AddMinutes(minutes);

    /// <summary>The phone is switched off and on.</summary>
    public void Reopen()
    {
        if (Disk is not null)
            Store = JobLog.Open(Disk);
    }

    public void Dispose() => (Store as IDisposable)?.Dispose();

    /// <summary>What goes from here to another: all, or what he lacks.</summary>
    public async Task<string> FileForAsync(Bay other, bool onlyLacking)
    {
        var tally = Tally.Empty;
        if (onlyLacking)
        {
            var (read, problems) = TallyDocument.Read(await TextAsync(other.Desk.TallyAsync(Stop)));
            Assert.Empty(problems);
            tally = read!;
        }
        return await TextAsync(Desk.ExportAllAsync(tally, Stop));
    }

    public async Task TakeAsync(string file)
    {
        var taken = await Desk.ImportAllAsync(file, Stop);
        Assert.Empty(taken.Problems.Select(problem => problem.Sentence.ToString()));
        Assert.Empty(taken.Value!.LeftOut.Select(said => said.ToString()));
    }

    /// <summary>The same, broken off: the disk is full after so many bytes, or the program ends after so many
    /// writings.</summary>
    public async Task TakeInPartAsync(string file, int bytes, int writings)
    {
        var whole = Store;
        try
        {
            if (Disk is not null && bytes >= 0)
                Disk.Room = Disk.Length + bytes;
            else
                Store = Ending.After(whole, writings);
            await TakeAsync(file);
        }
        catch (Exception trouble) when (trouble is FullException or OperationCanceledException)
        {
            // That is what was to happen.
        }
        finally
        {
            Store = whole;
            Disk?.Room = long.MaxValue;
        }
    }

    /// <summary>Everything that is held, without what is each store's own: the numbers and the order of
    /// arrival.</summary>
    public async Task<string> HeldAsync()
    {
        var lines = new List<string>();
        foreach (var car in await Store.CarsAsync(Stop))
            lines.Add("car " + JobDocument.OnOneLine(JobDocument.WriteCar(car)));
        foreach (var kit in await Store.KitsAsync(Stop))
            lines.Add("kit " + JobDocument.OnOneLine(JobDocument.WriteKit(kit)));
        await foreach (var record in Store.RecordsAsync(null, null, Stop))
        {
            var job = record.Job;
            Assert.Null(JournalChain.Broken(record));
            lines.Add($"job {JobDocument.OnOneLine(JobDocument.WriteJob(job with { Number = 0 }))} of {job.CarId}");
            lines.Add($"kits of {job.Id} {string.Join(' ', record.Kits.Select(kit => kit.Id).Order())}");
            lines.AddRange(
                record.Journal.All.Select(entry =>
                    $"entry of {job.Id} {JobDocument.OnOneLine(JobDocument.WriteEntry(entry))}"
                )
            );
            lines.AddRange((await Store.PhotosAsync(job.Id, Stop)).Select(photo => Line(job.Id, photo)));
        }
        return string.Join('\n', lines.Order(StringComparer.Ordinal));
    }

    public static string Line(Guid job, Photo photo) => $"photo of {job} {photo.Id} {photo.Entry} {photo.Digest}";

    public static async Task<string> TextAsync(IAsyncEnumerable<string> pieces)
    {
        var text = new StringBuilder();
        await foreach (var piece in pieces)
            text.Append(piece);
        return text.ToString();
    }

    private sealed class StoppedClock : TimeProvider
    {
        public DateTimeOffset Now { get; set; } = Story.Noon;

        public override DateTimeOffset GetUtcNow() => Now.ToUniversalTime();

        public override TimeZoneInfo LocalTimeZone => TimeZoneInfo.Utc;
    }

    /// <summary>Ids that no other bay makes.</summary>
    private sealed class CountedIds(int bay) : IIdSource
    {
        private int last;

        public Guid NextId(DateTimeOffset now) => new(++last, (short)bay, 7, new byte[8]);

        public int NextSeed() => ++last;
    }
}

/// <summary>A store whose program ends in the middle.</summary>
[SuppressMessage("Performance", "CA1852", Justification = "The proxy is made as a child of it.")]
internal class Ending : DispatchProxy
{
    private IJobStore store = null!;
    private int left;

    public static IJobStore After(IJobStore store, int writings)
    {
        var made = Create<IJobStore, Ending>();
        ((Ending)(object)made).store = store;
        ((Ending)(object)made).left = writings;
        return made;
    }

    protected override object? Invoke(MethodInfo? targetMethod, object?[]? args)
    {
        if (
            targetMethod!.Name
                is nameof(IJobStore.MergeAsync)
                    or nameof(IJobStore.MergeCarAsync)
                    or nameof(IJobStore.AddKitAsync)
            && left-- <= 0
        )
            throw new OperationCanceledException("ended");
        return targetMethod.Invoke(store, args);
    }
}
