using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Text.RegularExpressions;
using Tightcold.Storage;

namespace Tightcold.Bench.Host;

/// <summary>The whole site over loopback: many jobs, one long job, many clients. See docs/reliability.md.</summary>
internal static partial class HostBench
{
    private const int Rounds = 100;

    public static async Task JobsAsync(int jobs, string? data, TextWriter to)
    {
        await using var bench = await OpenAsync(data, place => Fill.JobsAsync(place, jobs, default), to)
            .ConfigureAwait(false);
        using var client = bench.Client();
        var chance = new Random(7);
        // The start page weighs its open jobs once after a start; that first answer is told apart.
        var timings = new Timings();
        await timings.TakeAsync("start page, first after a start", () => GetAsync(client, "/")).ConfigureAwait(false);
        await GetAsync(client, "/jobs").ConfigureAwait(false);
        await GetAsync(client, $"/jobs/{jobs}").ConfigureAwait(false);
        // By itself: what a job page that was never seen leaves to be weighed is not its work.
        for (var i = 0; i < Rounds; i++)
            await timings.TakeAsync("start page", () => GetAsync(client, "/")).ConfigureAwait(false);
        for (var i = 0; i < Rounds; i++)
        {
            await timings
                .TakeAsync("list, any part", () => GetAsync(client, $"/jobs?before={chance.Next(2, jobs)}"))
                .ConfigureAwait(false);
            await timings
                .TakeAsync("list of one state, any part", () =>
                    GetAsync(client, $"/jobs?state=closed&before={chance.Next(2, jobs)}")
                )
                .ConfigureAwait(false);
            await timings
                .TakeAsync("search, common words", () => GetAsync(client, "/jobs?find=blue+estate+warm"))
                .ConfigureAwait(false);
            await timings
                .TakeAsync("search, one car of all", () =>
                    GetAsync(client, $"/jobs?find={chance.Next(1, jobs):X}+warm")
                )
                .ConfigureAwait(false);
            await timings
                .TakeAsync("search, nothing fits", () => GetAsync(client, "/jobs?find=zeppelin"))
                .ConfigureAwait(false);
            var number = chance.Next(1, jobs);
            await timings
                .TakeAsync("job page, first time", () => GetAsync(client, $"/jobs/{number}"))
                .ConfigureAwait(false);
            await timings.TakeAsync("job page, again", () => GetAsync(client, $"/jobs/{number}")).ConfigureAwait(false);
        }
        await timings.TakeAsync("ledger, first after a start", () => LedgerAsync(client)).ConfigureAwait(false);
        for (var i = 0; i < Rounds; i++)
        {
            await timings.TakeAsync("ledger", () => LedgerAsync(client)).ConfigureAwait(false);
            await timings
                .TakeAsync("ledger of a year", () => GetAsync(client, "/ledger?year=2017"))
                .ConfigureAwait(false);
        }
        for (var i = 0; i < 20; i++)
        {
            await PostNoteAsync(client, timings, jobs, $"bench {i}").ConfigureAwait(false);
            await timings.TakeAsync("ledger, first after an entry", () => LedgerAsync(client)).ConfigureAwait(false);
        }
        var check = await timings.TakeAsync("check", bench.CheckAsync).ConfigureAwait(false);
        timings.Write(to);
        to.WriteLine(check.IsClean ? "check: clean" : "check: " + string.Join(' ', check.All.Take(5)));
    }

    /// <summary>Until the books are there.</summary>
    private static async Task<bool> LedgerAsync(HttpClient client)
    {
        while (
            (await client.GetStringAsync(new Uri("/ledger", UriKind.Relative)).ConfigureAwait(false)).Contains(
                "Adding up",
                StringComparison.Ordinal
            )
        )
            await Task.Delay(100).ConfigureAwait(false);
        return true;
    }

    public static async Task LongAsync(int entries, string? data, TextWriter to)
    {
        var number = 0;
        await using var bench = await OpenAsync(
                data,
                async place =>
                {
                    using var store = await JobStore.OpenAsync(place).ConfigureAwait(false);
                    number = await Fill.LongJobAsync(store, entries, default).ConfigureAwait(false);
                },
                to
            )
            .ConfigureAwait(false);
        using var client = bench.Client();
        var timings = new Timings();
        await timings
            .TakeAsync("job page, first after a start", () => GetAsync(client, $"/jobs/{number}"))
            .ConfigureAwait(false);
        for (var i = 0; i < 20; i++)
            await GetAsync(client, $"/jobs/{number}").ConfigureAwait(false);
        for (var i = 0; i < Rounds; i++)
        {
            await timings.TakeAsync("job page", () => GetAsync(client, $"/jobs/{number}")).ConfigureAwait(false);
            await timings.TakeAsync("start page", () => GetAsync(client, "/")).ConfigureAwait(false);
            await timings
                .TakeAsync("form", () => GetAsync(client, $"/jobs/{number}/entries/new/note"))
                .ConfigureAwait(false);
        }
        for (var i = 0; i < 20; i++)
        {
            await PostNoteAsync(client, timings, number, $"bench {i}").ConfigureAwait(false);
            await timings
                .TakeAsync("job page, first after an entry", () => GetAsync(client, $"/jobs/{number}"))
                .ConfigureAwait(false);
        }
        timings.Write(to);
    }

    /// <returns>False when an answer was an error, or an acknowledged entry is missing or doubled.</returns>
    public static async Task<bool> ClientsAsync(int clients, TimeSpan time, string? data, TextWriter to)
    {
        const int jobs = 20;
        await using var bench = await OpenAsync(data, place => Fill.JobsAsync(place, jobs, default), to)
            .ConfigureAwait(false);
        using (var first = bench.Client())
            for (var number = 1; number <= jobs; number++)
                await GetAsync(first, $"/jobs/{number}").ConfigureAwait(false);
        var timings = new Timings();
        var written = new ConcurrentBag<string>();
        var errors = new ConcurrentBag<string>();
        var busy = 0;
        var end = Stopwatch.StartNew();
        await Task.WhenAll(
                Enumerable
                    .Range(0, clients)
                    .Select(i =>
                        Task.Run(async () =>
                        {
                            using var client = bench.Client();
                            for (var round = 0; end.Elapsed < time; round++)
                            {
                                try
                                {
                                    var number = 1 + (i + round) % jobs;
                                    await timings
                                        .TakeAsync("job page", () => GetAsync(client, $"/jobs/{number}"))
                                        .ConfigureAwait(false);
                                    var text = string.Create(CultureInfo.InvariantCulture, $"client {i} round {round}");
                                    Interlocked.Add(
                                        ref busy,
                                        await PostNoteAsync(client, timings, number, text).ConfigureAwait(false)
                                    );
                                    written.Add(text);
                                }
                                catch (HttpRequestException wait)
                                    when (wait.StatusCode == HttpStatusCode.ServiceUnavailable)
                                {
                                    Interlocked.Increment(ref busy);
                                }
                                catch (HttpRequestException trouble)
                                {
                                    errors.Add(trouble.Message);
                                }
                            }
                        })
                    )
            )
            .ConfigureAwait(false);
        timings.Write(to, processor: false);
        var (there, check) = await bench.NotesAsync().ConfigureAwait(false);
        var notes = there.Where(text => text.StartsWith("client", StringComparison.Ordinal)).ToList();
        to.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"{clients} clients, {end.Elapsed.TotalSeconds:0} s, {timings.Count} answers, {errors.Count} errors, {busy} told to wait, forms kept; {written.Count} entries acknowledged, {notes.Count} there, {notes.Distinct().Count()} different; check: {(check.IsClean ? "clean" : string.Join(' ', check.All))}"
            )
        );
        foreach (var error in errors.Distinct().Take(5))
            to.WriteLine(error);
        return errors.IsEmpty && check.IsClean && notes.Count == written.Count && notes.ToHashSet().SetEquals(written);
    }

    private static async Task<SiteOnBench> OpenAsync(string? data, Func<DataPlace, Task> fill, TextWriter to)
    {
        // Data filled by an earlier run are measured as they are, on a copy.
        var folder = Directory.CreateTempSubdirectory("tightcold-bench-").FullName;
        if (data is not null && File.Exists(DataFolder.DataFile(data)))
        {
            File.Copy(DataFolder.DataFile(data), DataFolder.DataFile(folder));
            return await SiteOnBench.StartAsync(new DataPlace(folder, null)).ConfigureAwait(false);
        }
        var place = data is null ? new DataPlace(folder, null) : DataPlace.Resolve(data) with { Folder = folder };
        var watch = Stopwatch.StartNew();
        await fill(place).ConfigureAwait(false);
        JobStore.Release();
        to.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"filled in {watch.Elapsed.TotalSeconds:0.0} s{(place.Connection is null ? $", {new FileInfo(DataFolder.DataFile(folder)).Length / 1e6:0} MB" : "")}"
            )
        );
        return await SiteOnBench.StartAsync(place).ConfigureAwait(false);
    }

    private static async Task<string> GetAsync(HttpClient client, string address)
    {
        using var answer = await client.GetAsync(new Uri(address, UriKind.Relative)).ConfigureAwait(false);
        var body = await answer.Content.ReadAsStringAsync().ConfigureAwait(false);
        return answer.IsSuccessStatusCode
            ? body
            : throw new HttpRequestException($"{address} answered {(int)answer.StatusCode}", null, answer.StatusCode);
    }

    /// <summary>Writes a note as a person does who presses “send again” until it is taken.</summary>
    /// <returns>How often the site said that it is busy and handed the form back.</returns>
    private static async Task<int> PostNoteAsync(HttpClient client, Timings timings, int number, string text)
    {
        var address = $"/jobs/{number}/entries/new/note";
        var fields = HiddenIn(await timings.TakeAsync("form", () => GetAsync(client, address)).ConfigureAwait(false));
        fields["f.text"] = text;
        for (var busy = 0; ; busy++)
        {
            using var content = new FormUrlEncodedContent(fields);
            using var answer = await timings
                .TakeAsync("entry sent", () => client.PostAsync(new Uri(address, UriKind.Relative), content))
                .ConfigureAwait(false);
            if (answer.StatusCode == HttpStatusCode.Redirect)
                return busy;
            if (answer.StatusCode != HttpStatusCode.ServiceUnavailable)
                throw new HttpRequestException($"{address} answered {(int)answer.StatusCode} to an entry");
            fields = HiddenIn(await answer.Content.ReadAsStringAsync().ConfigureAwait(false));
            if (fields.GetValueOrDefault("f.text") != text)
                throw new HttpRequestException($"{address} was busy and lost what was typed");
        }
    }

    private static Dictionary<string, string> HiddenIn(string html) =>
        Hidden()
            .Matches(html[html.IndexOf("<main", StringComparison.Ordinal)..])
            .DistinctBy(field => field.Groups["name"].Value)
            .ToDictionary(
                field => field.Groups["name"].Value,
                field => WebUtility.HtmlDecode(field.Groups["value"].Value)
            );

    [GeneratedRegex("<input type=\"hidden\" name=\"(?<name>[^\"]+)\" value=\"(?<value>[^\"]*)\"")]
    private static partial Regex Hidden();
}
