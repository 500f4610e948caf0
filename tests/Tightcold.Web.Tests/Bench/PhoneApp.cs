using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;

namespace Tightcold.Web.Tests.Bench;

/// <summary>The phone's own program, as <c>./package phone</c> made it, handed out by a plain web server; and a browser
/// that came there once.</summary>
public sealed class PhoneApp : IAsyncDisposable
{
    /// <summary>In front of the worker's script: its clock, which a test sets. Nothing else of the program is
    /// changed.</summary>
    private const string TestClock = """
        { let ahead = 0; const now = Date.now.bind(Date); Date.now = () => now() + ahead;
          new BroadcastChannel('test-clock').onmessage = ({ data }) => { ahead = data.at - now(); new BroadcastChannel('test-clock-set').postMessage(data.at); }; }

        """;

    /// <summary>What some browsers, and private windows of others, do not have; and a database without room, when a test
    /// says so.</summary>
    private const string WithoutFiles = """
        delete FileSystemFileHandle.prototype.createSyncAccessHandle;
        { let full = false; const put = IDBObjectStore.prototype.put;
          IDBObjectStore.prototype.put = function (...all) { if (full) throw new DOMException('no room', 'QuotaExceededError'); return put.apply(this, all); };
          new BroadcastChannel('test-room').onmessage = ({ data }) => { full = data.full; new BroadcastChannel('test-room-set').postMessage(full); }; }

        """;

    private readonly WebApplication server;
    private DateTimeOffset now;

    private readonly string under;

    private PhoneApp(WebApplication server, string under) => (this.server, this.under) = (server, under);

    public Uri Address => new(new Uri(server.Urls.First()), under);

    /// <summary>The folder holds a newer version from now on.</summary>
    public bool HasNewer { get; set; }

    private bool HasFiles { get; init; }

    /// <summary>How often somebody asked the server for something.</summary>
    public int Asked { get; private set; }

    public static string Folder { get; } = Path.Combine(Person.Root(), "artifacts", "package", "phone");

    /// <summary>The folder, which must be there.</summary>
    public static string Whole()
    {
        Assert.True(
            File.Exists(Path.Combine(Folder, "files.js")),
            "The phone's program is not packaged; run ./package phone first, as ./test does."
        );
        return Folder;
    }

    /// <param name="under">The folder of the site in which it lies.</param>
    /// <param name="hasFiles">False: a browser without files of its own, which keeps the journal in its database.</param>
    public static async Task<PhoneApp> StartAsync(string under = "/", bool hasFiles = true)
    {
        Whole();
        var builder = WebApplication.CreateEmptyBuilder(new());
        builder.WebHost.UseKestrelCore().UseUrls("http://127.0.0.1:0");
        var server = builder.Build();
        var app = new PhoneApp(server, under) { HasFiles = hasFiles };
        server.Run(app.HandOutAsync);
        await server.StartAsync(TestContext.Current.CancellationToken);
        return app;
    }

    /// <summary>The browser comes for the first time, and the first page is there.</summary>
    public async Task<Person> PersonAsync(Chromium chromium, DateTimeOffset at)
    {
        var person = await chromium.InShellAsync(
            new UriBuilder(Address) { Host = "localhost" }.Uri,
            390,
            at.Offset.Hours
        );
        await ReadyAsync(person);
        await SetAsync(person, at);
        return person;
    }

    public static async Task ReadyAsync(Person person) =>
        await person.Page.WaitForFunctionAsync(
            "() => document.documentElement.dataset.ready",
            null,
            new() { Timeout = (float)Hang.Limit.TotalMilliseconds }
        );

    /// <summary>The time in the program; it goes on from there, and never back.</summary>
    public async Task SetAsync(Person person, DateTimeOffset at)
    {
        if (at <= now)
            return;
        now = at;
        await person.Page.EvaluateAsync(
            """
            at => new Promise(set => {
              new BroadcastChannel('test-clock-set').onmessage = () => set();
              new BroadcastChannel('test-clock').postMessage({ at });
            })
            """,
            at.ToUnixTimeMilliseconds()
        );
    }

    /// <summary>The phone is full, or has room again: for its files, or its database where it has none.</summary>
    public async Task FullAsync(Person person, bool isFull)
    {
        if (!HasFiles)
        {
            await person.Page.EvaluateAsync(
                """
                full => new Promise(set => {
                  new BroadcastChannel('test-room-set').onmessage = () => set();
                  new BroadcastChannel('test-room').postMessage({ full });
                })
                """,
                isFull
            );
            return;
        }
        var driver = await person.Page.Context.NewCDPSessionAsync(person.Page);
        var asked = new Dictionary<string, object>
        {
            ["origin"] = new Uri(person.Page.Url).GetLeftPart(UriPartial.Authority),
        };
        if (isFull)
            asked["quotaSize"] = 1;
        await driver.SendAsync("Storage.overrideQuotaForOrigin", asked);
    }

    /// <summary>A note in the first job, from a site of its own.</summary>
    public static async Task NoteAsync(Person person, string text)
    {
        await person.OpenAsync("/jobs/1/entries/new/note");
        await person.FillAsync("text", text);
        await person.PressAsync("Write it down");
    }

    /// <summary>The worker that runs the program is not kept any more: without network it does not start.</summary>
    public static Task ForgetProgramAsync(Person person) =>
        person.Page.EvaluateAsync(
            """
            async () => {
              for (const name of await caches.keys())
                if (name.startsWith('tightcold-phone-')) await (await caches.open(name)).delete('/desk.js');
            }
            """
        );

    public Task LaterAsync(Person person, TimeSpan by) => SetAsync(person, now + by);

    /// <summary>The server is gone, and the network with it.</summary>
    public async Task GoneAsync(Person person)
    {
        await server.StopAsync(TestContext.Current.CancellationToken);
        await person.OfflineAsync(true);
    }

    public ValueTask DisposeAsync() => server.DisposeAsync();

    private async Task HandOutAsync(HttpContext http)
    {
        Asked++;
        var asked = http.Request.Path.Value ?? "";
        var path =
            !asked.StartsWith(under, StringComparison.Ordinal) ? ".."
            : asked == under ? "index.html"
            : asked[under.Length..];
        var file = Path.Combine(Folder, path);
        if (path.Contains("..", StringComparison.Ordinal) || !File.Exists(file))
        {
            http.Response.StatusCode = StatusCodes.Status404NotFound;
            return;
        }
        http.Response.ContentType = Path.GetExtension(file) switch
        {
            ".html" => "text/html; charset=utf-8",
            ".js" => "text/javascript; charset=utf-8",
            ".css" => "text/css; charset=utf-8",
            ".wasm" => "application/wasm",
            ".svg" => "image/svg+xml",
            ".png" => "image/png",
            ".webmanifest" => "application/manifest+json",
            _ => "application/octet-stream",
        };
        if (path == "desk.js")
            await http.Response.WriteAsync(HasFiles ? TestClock : WithoutFiles + TestClock);
        if (HasNewer && path == "service.js")
            await http.Response.WriteAsync("// newer\n");
        if (HasNewer && path == "files.js")
        {
            await http.Response.WriteAsync(
                (await File.ReadAllTextAsync(file)).Replace("version: '", "version: 'newer-", StringComparison.Ordinal)
            );
            return;
        }
        await http.Response.SendFileAsync(file);
    }
}
