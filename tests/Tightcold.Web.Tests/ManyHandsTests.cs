using System.Collections.Concurrent;
using System.Globalization;
using System.Net;
using Microsoft.AspNetCore.Builder;
using Tightcold.Jobs.Entries;
using Tightcold.Storage;
using Tightcold.Storage.Tests.Server;
using Tightcold.Web.Tests.Bench;

[assembly: AssemblyFixture(typeof(PostgresServer))]

namespace Tightcold.Web.Tests;

/// <summary>Many phones at once, and several laptops on one database: no answer is an error, no entry is lost or
/// doubled.</summary>
public sealed class ManyHandsTests(PostgresServer server)
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private static async Task<string> WriteAsync(HttpClient client, int job, string text, string? id = null)
    {
        var fields = await client.HiddenOfAsync($"/jobs/{job}/entries/new/note");
        fields["f.text"] = text;
        if (id is not null)
            fields["id"] = id;
        using var answer = await client.SendAsync($"/jobs/{job}/entries/new/note", fields);
        if (answer.StatusCode != HttpStatusCode.Redirect)
            Assert.Fail($"{answer.StatusCode}: {await answer.Content.ReadAsStringAsync(Stop)}");
        using var page = await client.GetAsync(new Uri($"/jobs/{job}", UriKind.Relative), Stop);
        Assert.Equal(HttpStatusCode.OK, page.StatusCode);
        return fields["id"];
    }

    private static async Task<List<string>> NotesAsync(JobStore store, int job) =>
        [
            .. (await store.RecordAsync(job, Stop))!
                .Journal.OfKind(EntryKinds.Note)
                .Select(entry => entry.Fields.Text("text")!),
        ];

    [Fact]
    public async Task Two_hundred_phones_write_at_once_without_an_error_a_loss_or_a_double()
    {
        await using var site = await RunningSite.StartAsync(_ => []);
        var car = (
            await site.Desk.AddCarAsync(
                new Dictionary<string, string> { ["label"] = "blue estate", ["refrigerant"] = "R-134a" },
                Stop
            )
        ).Value!;
        for (var i = 0; i < 4; i++)
            await site.Desk.OpenJobAsync(car.Id, "blows warm", Stop);
        var written = new ConcurrentBag<string>();
        await Task.WhenAll(
            Enumerable
                .Range(0, 200)
                .Select(i =>
                    Task.Run(
                        async () =>
                        {
                            using var client = site.Client();
                            for (var round = 0; round < 2; round++)
                            {
                                var text = string.Create(CultureInfo.InvariantCulture, $"phone {i} round {round}");
                                await WriteAsync(client, 1 + i % 4, text);
                                written.Add(text);
                            }
                        },
                        Stop
                    )
                )
        );
        Assert.Empty(site.Failures);
        using var store = await JobStore.OpenAsync(site.DataFolder, Stop);
        var there = new List<string>();
        for (var job = 1; job <= 4; job++)
            there.AddRange(await NotesAsync(store, job));
        Assert.Equal(written.Order(StringComparer.Ordinal), there.Order(StringComparer.Ordinal));
        Assert.Empty((await store.CheckAsync(null, Stop)).All);
    }

    [Fact]
    public async Task A_job_that_many_phones_look_at_is_weighed_once_for_each_state_of_its_journal()
    {
        var weighed = 0;
        await using var site = await RunningSite.StartAsync(_ =>
        {
            Interlocked.Increment(ref weighed);
            return [];
        });
        var car = (
            await site.Desk.AddCarAsync(
                new Dictionary<string, string> { ["label"] = "blue estate", ["refrigerant"] = "R-134a" },
                Stop
            )
        ).Value!;
        await site.Desk.OpenJobAsync(car.Id, "blows warm", Stop);
        using var client = site.Client();
        async Task LookAsync() =>
            await Task.WhenAll(
                Enumerable
                    .Range(0, 30)
                    .Select(async _ => await client.GetStringAsync(new Uri("/jobs/1", UriKind.Relative), Stop))
            );
        await LookAsync();
        await LookAsync();
        Assert.Equal(1, weighed);
        await site.Desk.AddEntryAsync(
            1,
            EntryKinds.Note,
            new Dictionary<string, string> { ["text"] = "drier is old" },
            null,
            "Ada",
            cancellation: Stop
        );
        await LookAsync();
        Assert.Equal(2, weighed);
    }

    [Fact]
    public async Task Two_laptops_on_one_database_write_into_one_job_and_a_form_sent_to_both_counts_once()
    {
        var database = await server.NewDatabaseAsync(Stop);
        var folders = new[]
        {
            Directory.CreateTempSubdirectory("tightcold-web-").FullName,
            Directory.CreateTempSubdirectory("tightcold-web-").FullName,
        };
        var failures = new ConcurrentBag<string>();
        WebApplication[] sites =
        [
            .. folders.Select(folder =>
                Site.Build(
                    new SiteOptions(folder, 0, TimeProvider.System)
                    {
                        Connection = DataPlace.Resolve(database).Connection,
                        Findings = _ => [],
                        Log = failures.Add,
                    }
                )
            ),
        ];
        try
        {
            foreach (var site in sites)
                await site.StartAsync(Stop);
            using var store = await JobStore.OpenAsync(database, Stop);
            var desk = new App.Desk.JobDesk(store, TimeProvider.System, new App.Desk.RandomIds());
            var car = (
                await desk.AddCarAsync(
                    new Dictionary<string, string> { ["label"] = "blue estate", ["refrigerant"] = "R-134a" },
                    Stop
                )
            ).Value!;
            await desk.OpenJobAsync(car.Id, "blows warm", Stop);
            await Task.WhenAll(
                Enumerable
                    .Range(0, 24)
                    .Select(i =>
                        Task.Run(
                            async () =>
                            {
                                using var first = Client(sites[i % 2]);
                                using var second = Client(sites[1 - i % 2]);
                                var text = string.Create(CultureInfo.InvariantCulture, $"hand {i}");
                                // The answer of the first got lost on the way; the phone sends the same form by the
                                // other laptop.
                                var id = await WriteAsync(first, 1, text);
                                await WriteAsync(second, 1, text, id);
                            },
                            Stop
                        )
                    )
            );
            Assert.Empty(failures);
            Assert.Equal(
                Enumerable.Range(0, 24).Select(i => $"hand {i}").Order(StringComparer.Ordinal),
                (await NotesAsync(store, 1)).Order(StringComparer.Ordinal)
            );
            Assert.Empty((await store.CheckAsync(null, Stop)).All);
        }
        finally
        {
            foreach (var site in sites)
                await site.DisposeAsync();
            foreach (var folder in folders)
                Directory.Delete(folder, recursive: true);
        }
    }

    private static HttpClient Client(WebApplication site) =>
        RunningSite.Client(Site.Address(site), RunningSite.KeyOf(site));
}
