using System.Collections.Immutable;
using System.Net;
using Microsoft.AspNetCore.Builder;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Time.Testing;
using Tightcold.App.Demo;
using Tightcold.App.Desk;
using Tightcold.Findings;
using Tightcold.Jobs.Journals;
using Tightcold.Storage;
using Tightcold.Web.Lan;

namespace Tightcold.Web.Tests.Bench;

/// <summary>The real site on a free port of loopback, with its own data folder, which goes with it.</summary>
public sealed class RunningSite : IAsyncDisposable
{
    /// <summary>A summer noon; the site's clock stands unless a test moves it.</summary>
    public static readonly DateTimeOffset Noon = new(2026, 7, 14, 12, 0, 0, TimeSpan.FromHours(-6));

    // The demo is played once, by the program itself; each site gets a copy of what it wrote.
    private static readonly Lazy<Task<string>> PlayedDemo = new(PlayDemoAsync);

    private readonly Func<JobRecord, ImmutableArray<Finding>>? findings;
    private readonly TimeSpan patience;
    private WebApplication site;
    private bool isSecond;

    private readonly Func<string, Task<JobStore>>? store;
    private readonly string? phone;

    private RunningSite(
        string dataFolder,
        DateTimeOffset now,
        Func<JobRecord, ImmutableArray<Finding>>? findings,
        TimeSpan? patience = null,
        Func<string, Task<JobStore>>? store = null,
        string? phone = null
    )
    {
        (this.store, this.phone) = (store, phone);
        this.patience = patience ?? Hang.Limit;
        DataFolder = dataFolder;
        this.findings = findings;
        Clock = new FakeTimeProvider(now.ToUniversalTime());
        Clock.SetLocalTimeZone(TimeZoneInfo.CreateCustomTimeZone("workshop", now.Offset, "workshop", "workshop"));
        site = Build();
        OwnerKey = KeyOf(site);
    }

    /// <summary>Another link from the terminal: the first key ends when it rests for long.</summary>
    public string AnotherOwnerKey() => KeyOf(site);

    public static string KeyOf(WebApplication site) => site.Services.GetRequiredService<OwnerBook>().Add("test").Key;

    public string DataFolder { get; }
    public FakeTimeProvider Clock { get; }
    public List<string> Failures { get; } = [];
    public Uri Address => Site.Address(site);

    /// <summary>The key of the owner's browser, as a link of the terminal gives it.</summary>
    public string OwnerKey { get; }
    public JobDesk Desk => site.Services.GetRequiredService<JobDesk>();

    public static async Task<RunningSite> StartAsync(Func<JobRecord, ImmutableArray<Finding>>? findings = null)
    {
        var running = new RunningSite(NewFolder(), Noon, findings);
        await running.site.StartAsync(TestContext.Current.CancellationToken);
        return running;
    }

    /// <summary>The empty site on data that are opened otherwise than usual.</summary>
    internal static async Task<RunningSite> StartOnAsync(Func<string, Task<JobStore>> store)
    {
        var running = new RunningSite(NewFolder(), Noon, _ => [], store: store);
        await running.site.StartAsync(TestContext.Current.CancellationToken);
        return running;
    }

    private static string NewFolder() => Directory.CreateTempSubdirectory("tightcold-web-").FullName;

    /// <summary>Another instance of the program on the same data; the first one takes the folder away.</summary>
    public async Task<RunningSite> SecondAsync()
    {
        var second = new RunningSite(DataFolder, Clock.GetLocalNow(), findings) { isSecond = true };
        await second.site.StartAsync(TestContext.Current.CancellationToken);
        return second;
    }

    /// <summary>The empty site at a moment of the demo's day.</summary>
    public static async Task<RunningSite> StartAtAsync(DateTimeOffset now, TimeSpan? patience = null)
    {
        var running = new RunningSite(NewFolder(), now, null, patience);
        await running.site.StartAsync(TestContext.Current.CancellationToken);
        return running;
    }

    /// <summary>The empty site, now, which hands out the program for phones.</summary>
    public static async Task<RunningSite> WithPhoneAsync()
    {
        var running = new RunningSite(NewFolder(), DateTimeOffset.Now, null, phone: PhoneApp.Whole());
        await running.site.StartAsync(TestContext.Current.CancellationToken);
        return running;
    }

    /// <summary>The site with the demo's job in it, in the afternoon of that day, with the real findings.</summary>
    /// <param name="patience">How long a job's page waits for the odds of faults; until they are there unless
    /// given.</param>
    public static async Task<RunningSite> WithDemoAsync(TimeSpan? patience = null)
    {
        var folder = NewFolder();
        foreach (var file in Directory.EnumerateFiles(await PlayedDemo.Value))
            File.Copy(file, Path.Combine(folder, Path.GetFileName(file)));
        var running = new RunningSite(folder, DemoScenario.Start.AddHours(9), null, patience);
        await running.site.StartAsync(TestContext.Current.CancellationToken);
        return running;
    }

    /// <summary>The site as it was on the demo's day at a moment: only what had been written down by then.</summary>
    public static async Task<RunningSite> WithDemoUntilAsync(TimeSpan sinceMorning)
    {
        await using var whole = await WithDemoAsync();
        var record = (await whole.Desk.RecordAsync(1, TestContext.Current.CancellationToken))!;
        var now = DemoScenario.Start + sinceMorning;
        var (journal, _) = Journal.Create(record.Journal.All.Where(entry => entry.WrittenAt <= now));
        var running = new RunningSite(NewFolder(), now, null);
        Assert.True(
            (
                await running.Desk.ImportAsync(
                    JobDesk.Export(record with { Journal = journal!, Chain = [] }),
                    TestContext.Current.CancellationToken
                )
            ).Taken
        );
        await running.site.StartAsync(TestContext.Current.CancellationToken);
        return running;
    }

    /// <summary>Stops the program and starts it again on the same data, under the same address.</summary>
    public async Task RestartAsync()
    {
        var port = Address.Port;
        await site.DisposeAsync();
        site = Build(port);
        await site.StartAsync(TestContext.Current.CancellationToken);
    }

    /// <summary>The owner's client: follows no redirect, keeps cookies, and can name a foreign host.</summary>
    public HttpClient Client() => Client(Address, OwnerKey);

    public static HttpClient Client(Uri at, string? ownerKey)
    {
        var cookies = new CookieContainer();
        if (ownerKey is not null)
            cookies.Add(at, OwnerCookie(ownerKey));
        return new(
            new HttpClientHandler
            {
                AllowAutoRedirect = false,
                CookieContainer = cookies,
                UseProxy = false,
            }
        )
        {
            BaseAddress = at,
            Timeout = Hang.Limit,
        };
    }

    public static Cookie OwnerCookie(string key) => new(DeviceCookie.OwnerName, key);

    public async ValueTask DisposeAsync()
    {
        await site.DisposeAsync();
        if (isSecond)
            return;
        Directory.Delete(DataFolder, recursive: true);
    }

    private static async Task<string> PlayDemoAsync()
    {
        var folder = Directory.CreateTempSubdirectory("tightcold-web-demo-").FullName;
        AppDomain.CurrentDomain.ProcessExit += (_, _) => Directory.Delete(folder, recursive: true);
        // The last connection puts the log of the database back into its file, so that copying files copies everything.
        using var store = await JobStore.OpenAsync(folder, CancellationToken.None);
        await DemoScenario.PlayAsync(store, null, CancellationToken.None);
        return folder;
    }

    private WebApplication Build(int port = 0)
    {
        // Pages are read at once by most tests: they come whole, however busy the machine is.
        var options = new SiteOptions(DataFolder, port, Clock) { Log = Failures.Add, Patience = patience, PhoneFolder = phone };
        if (store is not null)
            options = options with { Store = () => store(DataFolder) };
        return Site.Build(findings is null ? options : options with { Findings = views => findings(views.Record) });
    }
}
