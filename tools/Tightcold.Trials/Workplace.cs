using Tightcold.App.Books;
using Tightcold.App.Desk;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Storage;

namespace Tightcold.Trials;

/// <summary>A data folder of a trial's own, which goes with it.</summary>
internal sealed class Workplace : IDisposable
{
    public string Root { get; } = Directory.CreateTempSubdirectory("tightcold-trial-").FullName;

    public string Data => Path.Combine(Root, "data");

    public string File(string name) => Path.Combine(Root, name);

    /// <summary>Cars and jobs with a few entries each, by the desk as a person would write them.</summary>
    public static async Task FillAsync(string data, int jobs)
    {
        using var store = await JobStore.OpenAsync(data).ConfigureAwait(false);
        var desk = new JobDesk(store, TimeProvider.System, new RandomIds());
        for (var number = 1; number <= jobs; number++)
        {
            var car = await desk.AddCarAsync(
                    new Dictionary<string, string>
                    {
                        ["label"] = $"blue estate {number:X}",
                        ["refrigerant"] = "R-134a",
                        ["label-charge"] = "680 g",
                    }
                )
                .ConfigureAwait(false);
            await desk.OpenJobAsync(car.Value!.Id, "blows warm at idle").ConfigureAwait(false);
            foreach (var text in new[] { "oil mist at the condenser", "driver says it hissed" })
                await desk.AddEntryAsync(
                        number,
                        EntryKinds.Note,
                        new Dictionary<string, string> { ["text"] = text },
                        null,
                        "Ada"
                    )
                    .ConfigureAwait(false);
        }
    }

    /// <summary>Everything that check finds wrong.</summary>
    public static async Task<IReadOnlyList<string>> TroublesAsync(string data)
    {
        using var store = await JobStore.OpenAsync(data).ConfigureAwait(false);
        var check = await store.CheckAsync(LedgerClosure.Of, default).ConfigureAwait(false);
        return [.. check.All];
    }

    /// <summary>Each job as a file would carry it.</summary>
    public static async Task<SortedDictionary<int, string>> ExportsAsync(string data)
    {
        using var store = await JobStore.OpenAsync(data).ConfigureAwait(false);
        var exports = new SortedDictionary<int, string>();
        await foreach (var record in store.RecordsAsync(null, null, default).ConfigureAwait(false))
            exports[record.Job.Number] = JobDesk.Export(record);
        return exports;
    }

    public static async Task<IReadOnlyList<string>> NotesAsync(string data, int job)
    {
        using var store = await JobStore.OpenAsync(data).ConfigureAwait(false);
        var record = await store.RecordAsync(job, default).ConfigureAwait(false);
        return
        [
            .. (record?.Journal ?? Journal.Create([]).Journal!)
                .OfKind(EntryKinds.Note)
                .Select(entry => entry.Fields.Text("text") ?? ""),
        ];
    }

    public void Dispose()
    {
        JobStore.Release();
        Directory.Delete(Root, recursive: true);
    }
}
