using System.Globalization;
using System.Net;
using Microsoft.Data.Sqlite;
using Microsoft.Playwright;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Storage;
using Tightcold.Storage.Engines;
using Tightcold.Web.Tests.Bench;

namespace Tightcold.Web.Tests;

/// <summary>Data that take nothing just now: a page says why, what was typed stays, and it counts once.</summary>
public sealed class BusyStoreTests(Chromium chromium)
{
    private const string NewNote = "/jobs/1/entries/new/note";

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    /// <summary>Little patience, yet more than one write takes on a machine that has much else to do.</summary>
    private static Task<RunningSite> HastyAsync() =>
        RunningSite.StartOnAsync(folder =>
            JobStore.PreparedAsync(
                new SqliteEngine(DataFolder.DataFile(folder), patience: TimeSpan.FromSeconds(5)),
                Stop
            )
        );

    private static async Task<RunningSite> WithJobAsync(Task<RunningSite> starting)
    {
        var site = await starting;
        var fields = new Dictionary<string, string> { ["label"] = "Grey estate", ["refrigerant"] = "R-134a" };
        var car = (await site.Desk.AddCarAsync(fields, Stop)).Value!;
        await site.Desk.OpenJobAsync(car.Id, "Warm at idle", Stop);
        return site;
    }

    /// <summary>What another program does while it writes for long.</summary>
    private static async Task<SqliteConnection> HoldAsync(RunningSite site)
    {
        var other = new SqliteConnection($"Data Source={DataFolder.DataFile(site.DataFolder)};Pooling=False");
        await other.OpenAsync(Stop);
        await using var begin = new SqliteCommand("BEGIN IMMEDIATE", other);
        await begin.ExecuteNonQueryAsync(Stop);
        return other;
    }

    private static async Task<Entry[]> NotesAsync(RunningSite site) =>
        [.. (await site.Desk.RecordAsync(1, Stop))!.Journal.OfKind(EntryKinds.Note)];

    [Fact]
    public async Task A_writer_whose_turn_does_not_come_gets_the_form_back_and_it_counts_once_at_its_first_time()
    {
        await using var site = await WithJobAsync(HastyAsync());
        using var client = site.Client();
        var fields = await client.HiddenOfAsync(NewNote);
        fields["f.text"] = "drier is \"old\"\nand <rusty>";
        var sentAt = site.Clock.GetUtcNow();
        string html;
        await using (await HoldAsync(site))
        {
            using var answer = await client.SendAsync(NewNote, fields);
            Assert.Equal(HttpStatusCode.ServiceUnavailable, answer.StatusCode);
            Assert.Equal(TimeSpan.FromSeconds(5), answer.Headers.RetryAfter!.Delta);
            html = await answer.Content.ReadAsStringAsync(Stop);
            Assert.Contains("Many are writing just now", html, StringComparison.Ordinal);
            Assert.Contains("Nothing was written down yet", html, StringComparison.Ordinal);
            Assert.Contains("is busy", Assert.Single(site.Failures), StringComparison.Ordinal);
        }
        site.Clock.Advance(TimeSpan.FromMinutes(7));
        var kept = PostedForms.HiddenIn(html);
        Assert.Equal(fields["id"], kept["id"]);
        Assert.Equal(fields["f.text"], kept["f.text"]);
        for (var i = 0; i < 2; i++)
        {
            using var again = await client.SendAsync(NewNote, kept);
            Assert.Equal(HttpStatusCode.Redirect, again.StatusCode);
        }
        var note = Assert.Single(await NotesAsync(site));
        Assert.Equal(fields["f.text"], note.Fields.Text("text"));
        Assert.Equal(sentAt, note.ObservedAt.ToUniversalTime());
    }

    [Fact]
    public async Task Many_writers_behind_one_that_holds_the_data_all_get_their_forms_back_and_nothing_is_half_written()
    {
        await using var site = await WithJobAsync(HastyAsync());
        using var client = site.Client();
        var forms = new List<Dictionary<string, string>>();
        for (var i = 0; i < 12; i++)
        {
            forms.Add(await client.HiddenOfAsync(NewNote));
            forms[^1]["f.text"] = string.Create(CultureInfo.InvariantCulture, $"hand {i}");
        }
        async Task<HttpStatusCode[]> SendAllAsync() =>
            await Task.WhenAll(
                forms.Select(async form =>
                {
                    using var answer = await client.SendAsync(NewNote, form);
                    return answer.StatusCode;
                })
            );
        await using (await HoldAsync(site))
        {
            Assert.All(await SendAllAsync(), status => Assert.Equal(HttpStatusCode.ServiceUnavailable, status));
            // Who only looks need not wait.
            var seen = await client.GetStringAsync(new Uri("/jobs/1", UriKind.Relative), Stop);
            Assert.Contains("Warm at idle", seen, StringComparison.Ordinal);
        }
        Assert.Empty(await NotesAsync(site));
        Assert.All(await SendAllAsync(), status => Assert.Equal(HttpStatusCode.Redirect, status));
        Assert.Equal(12, (await NotesAsync(site)).Length);
    }

    [Fact]
    public async Task Without_scripts_the_page_that_was_not_taken_has_a_button_that_sends_it_again()
    {
        await using var site = await WithJobAsync(HastyAsync());
        await using var person = await chromium.PersonAsync(site, 390, scripts: false);
        await person.OpenAsync(NewNote);
        await person.FillAsync("text", "dye at the condenser");
        await using (await HoldAsync(site))
        {
            await person.PressAsync("Write it down");
            await person.SeesAsync("Nothing was written down yet");
            await person.SeesAsync("dye at the condenser");
            // Still held: the page comes again, with everything in it.
            await person.PressAsync("Send it again");
            await person.SeesAsync("dye at the condenser");
        }
        await person.PressAsync("Send it again");
        await person.SeesAsync("Written down at");
        Assert.Equal("dye at the condenser", Assert.Single(await NotesAsync(site)).Fields.Text("text"));
    }

    [Fact]
    public async Task With_scripts_the_browser_keeps_it_says_why_and_sends_it_by_itself()
    {
        await using var site = await WithJobAsync(HastyAsync());
        await using var person = await chromium.PersonAsync(site, 390);
        await person.OpenAsync("/jobs/1");
        await person.OpenFormAsync(EntryKinds.Note);
        await person.FillAsync("text", "dye at the condenser");
        await using (await HoldAsync(site))
        {
            await person.PressAsync("Write it down");
            await person.Page.GetByText("1 waiting, kept in this browser: the data are busy").WaitForAsync();
            Assert.Empty(await person.RulesBrokenAsync());
        }
        await person.NothingWaitsAsync();
        Assert.Equal("dye at the condenser", Assert.Single(await NotesAsync(site)).Fields.Text("text"));
    }

    /// <summary>A full disk by SQLite's own limit of pages: the same result code, without filling one.</summary>
    [Fact]
    public async Task A_full_disk_is_said_and_what_was_typed_stays()
    {
        await using var site = await WithJobAsync(
            RunningSite.StartOnAsync(folder =>
                JobStore.PreparedAsync(
                    new SqliteEngine(DataFolder.DataFile(folder), pragmas: "PRAGMA max_page_count=36;"),
                    Stop
                )
            )
        );
        using var client = site.Client();
        HttpResponseMessage answer;
        var sent = 0;
        do
        {
            var fields = await client.HiddenOfAsync(NewNote);
            fields["f.text"] = $"{++sent} " + new string('n', 1500);
            answer = await client.SendAsync(NewNote, fields);
        } while (answer.StatusCode == HttpStatusCode.Redirect && sent < 500);
        Assert.Equal(HttpStatusCode.InsufficientStorage, answer.StatusCode);
        var html = await answer.Content.ReadAsStringAsync(Stop);
        Assert.Contains("The disk is full", html, StringComparison.Ordinal);
        Assert.StartsWith($"{sent} nnn", PostedForms.HiddenIn(html)["f.text"], StringComparison.Ordinal);
        Assert.Equal(sent - 1, (await NotesAsync(site)).Length);
        answer.Dispose();
    }

    [Fact]
    public async Task Whatever_else_the_data_have_the_typed_form_comes_back_and_counts_once()
    {
        await using var site = await WithJobAsync(HastyAsync());
        using var client = site.Client();
        var fields = await client.HiddenOfAsync(NewNote);
        fields["f.text"] = "shaft seal weeps";
        await RunAsync(site, "ALTER TABLE entries RENAME TO gone");
        string html;
        using (var answer = await client.SendAsync(NewNote, fields))
        {
            Assert.Equal(HttpStatusCode.InternalServerError, answer.StatusCode);
            html = await answer.Content.ReadAsStringAsync(Stop);
        }
        Assert.Contains("Something went wrong in here", html, StringComparison.Ordinal);
        Assert.Contains("sent again, it counts once", html, StringComparison.Ordinal);
        await RunAsync(site, "ALTER TABLE gone RENAME TO entries");
        var kept = PostedForms.HiddenIn(html);
        for (var i = 0; i < 2; i++)
        {
            using var again = await client.SendAsync(NewNote, kept);
            Assert.Equal(HttpStatusCode.Redirect, again.StatusCode);
        }
        Assert.Equal("shaft seal weeps", Assert.Single(await NotesAsync(site)).Fields.Text("text"));
    }

    private static async Task RunAsync(RunningSite site, string sql)
    {
        await using var other = new SqliteConnection(
            $"Data Source={DataFolder.DataFile(site.DataFolder)};Pooling=False"
        );
        await other.OpenAsync(Stop);
        await using var command = new SqliteCommand(sql, other);
        await command.ExecuteNonQueryAsync(Stop);
    }

    [Theory]
    [InlineData(StoreTrouble.Busy, 503, "Many are writing just now")]
    [InlineData(StoreTrouble.Stopped, 503, "The database does not answer")]
    [InlineData(StoreTrouble.Full, 507, "The disk is full")]
    [InlineData(StoreTrouble.ReadOnly, 500, "The data may only be read")]
    [InlineData(StoreTrouble.Other, 500, "Something went wrong in here")]
    public async Task Who_only_looked_is_told_what_the_data_have_and_the_log_gets_the_rest(
        StoreTrouble trouble,
        int status,
        string title
    )
    {
        await using var site = await WithJobAsync(
            RunningSite.StartAsync(_ => throw new StoreException(trouble, "at /somewhere/tightcold.db"))
        );
        await using var person = await chromium.PersonAsync(site, 390);
        var answer = await person.OpenAsync("/jobs/1");
        Assert.Equal(status, answer!.Status);
        await person.SeesAsync(title);
        Assert.DoesNotContain("somewhere", await person.SeesAsync(), StringComparison.Ordinal);
        // The worker that keeps pages may have asked for it too.
        Assert.NotEmpty(site.Failures);
        Assert.All(site.Failures, line => Assert.Contains("/somewhere/tightcold.db", line, StringComparison.Ordinal));
        var again = person.Page.GetByRole(AriaRole.Link, new() { Name = "Look again" });
        Assert.Equal(trouble == StoreTrouble.Other ? 0 : 1, await again.CountAsync());
        Assert.Empty(await person.RulesBrokenAsync());
        Assert.Empty(await person.TooSmallAsync());
    }
}
