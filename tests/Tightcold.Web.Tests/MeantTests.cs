using System.Globalization;
using System.Net;
using Tightcold.Jobs.Entries;
using Tightcold.Web.Tests.Bench;

namespace Tightcold.Web.Tests;

/// <summary>What a form brings along and what it sends is what was meant: of that moment, of that place, of that
/// joint.</summary>
public sealed class MeantTests
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    private static async Task<RunningSite> SiteAsync()
    {
        var site = await RunningSite.StartAsync(_ => []);
        var car = (
            await site.Desk.AddCarAsync(
                new Dictionary<string, string>
                {
                    ["label"] = "blue estate",
                    ["refrigerant"] = "R-134a",
                    ["label-charge"] = "500 g",
                },
                Cancellation
            )
        ).Value!;
        await site.Desk.OpenJobAsync(car.Id, "blows warm", Cancellation);
        return site;
    }

    private static async Task<Entry> AddAsync(
        RunningSite site,
        string kind,
        params (string Name, string Text)[] fields
    ) =>
        (
            await site.Desk.AddEntryAsync(
                1,
                kind,
                fields.ToDictionary(field => field.Name, field => field.Text),
                null,
                "Ada",
                cancellation: Cancellation
            )
        ).Value!;

    private static async Task<Entry[]> OfKindAsync(RunningSite site, string kind) =>
        [.. (await site.Desk.RecordAsync(1, Cancellation))!.Journal.OfKind(kind)];

    private static Task<string> PageAsync(HttpClient client, string path) =>
        client.GetStringAsync(new Uri(path, UriKind.Relative), Cancellation);

    [Fact]
    public async Task A_reading_that_is_corrected_in_the_afternoon_stays_at_its_moment_of_the_morning()
    {
        await using var site = await SiteAsync();
        site.Clock.Advance(TimeSpan.FromSeconds(25));
        var morning = await AddAsync(site, EntryKinds.Weather, ("ambient-temperature", "13 °C"));
        site.Clock.Advance(TimeSpan.FromHours(4));
        using var client = site.Client();
        var path = $"/jobs/1/entries/{morning.Id}/correct";
        var fields = await client.HiddenOfAsync(path);
        fields["f.ambient-temperature"] = "31";
        fields["u.ambient-temperature"] = "°C";
        // As the page shows it, in the workshop's time and without seconds.
        fields["when"] = "2026-07-14T12:00";
        fields["reason"] = "misread";
        using var answer = await client.SendAsync(path, fields);
        Assert.Equal(HttpStatusCode.Found, answer.StatusCode);
        var standing = Assert.Single(await OfKindAsync(site, EntryKinds.Weather));
        Assert.Equal(304.15, standing.Fields.Si("ambient-temperature")!.Value, 1e-9);
        Assert.Equal(morning.ObservedAt, standing.ObservedAt);
    }

    [Fact]
    public async Task A_gauges_log_is_read_by_the_clock_of_the_workshop()
    {
        await using var site = await SiteAsync();
        using var client = site.Client();
        var fields = await client.HiddenOfAsync("/jobs/1/gauge-log");
        foreach (
            var (name, text) in new[]
            {
                ("step", "write"),
                ("what", "hold"),
                ("text", "time,vacuum micron\n10:05:00,800\n10:25:00,810\n"),
                ("start", "2026-07-14T10:00"),
                ("time", "time"),
                ("time-unit", ""),
                ("pressure", "vacuum micron"),
                ("pressure-unit", "micron"),
                ("temperature", ""),
            }
        )
            fields[name] = text;
        using var answer = await client.SendAsync("/jobs/1/gauge-log", fields);
        Assert.Equal(HttpStatusCode.Found, answer.StatusCode);
        var first = new DateTimeOffset(2026, 7, 14, 10, 5, 0, RunningSite.Noon.Offset);
        Assert.Equal(
            [first, first.AddMinutes(20)],
            (await OfKindAsync(site, EntryKinds.VacuumReading)).Select(entry => entry.ObservedAt)
        );
    }

    [Fact]
    public async Task The_form_of_the_next_joint_keeps_the_test_and_not_what_was_seen()
    {
        await using var site = await SiteAsync();
        await AddAsync(
            site,
            EntryKinds.LeakCheck,
            ("spot", "condenser"),
            ("test", "electronic detector"),
            ("outcome", "clear leak")
        );
        using var client = site.Client();
        var page = await PageAsync(client, "/jobs/1/entries/new/leak-check?spot=evaporator");
        Assert.Matches("value=\"electronic detector\"[^>]* checked", page);
        Assert.DoesNotMatch("name=\"f.outcome\"[^>]* checked", page);
    }

    [Fact]
    public async Task The_air_of_the_morning_stands_in_the_form_of_an_hour_later_and_not_in_the_evenings()
    {
        await using var site = await SiteAsync();
        await AddAsync(site, EntryKinds.Weather, ("ambient-temperature", "13.7 °C"));
        using var client = site.Client();
        site.Clock.Advance(TimeSpan.FromHours(1));
        Assert.Contains(
            "13.7",
            await PageAsync(client, "/jobs/1/entries/new/standing-reading"),
            StringComparison.Ordinal
        );
        site.Clock.Advance(TimeSpan.FromHours(7));
        Assert.DoesNotContain(
            "value=\"13.7\"",
            await PageAsync(client, "/jobs/1/entries/new/standing-reading"),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task A_form_sent_again_by_a_weak_network_is_written_once_and_dated_when_it_was_sent_first()
    {
        await using var site = await SiteAsync();
        site.Clock.Advance(TimeSpan.FromHours(3));
        using var client = site.Client();
        var fields = await client.HiddenOfAsync("/jobs/1/entries/new/note");
        fields["f.text"] = "drier is old";
        fields["ago"] = (2 * 3600).ToString(CultureInfo.InvariantCulture);
        for (var times = 0; times < 2; times++)
        {
            using var answer = await client.SendAsync("/jobs/1/entries/new/note", fields);
            Assert.Equal(HttpStatusCode.Found, answer.StatusCode);
        }
        var note = Assert.Single(await OfKindAsync(site, EntryKinds.Note));
        Assert.Equal(RunningSite.Noon.AddHours(1), note.ObservedAt);
    }

    [Fact]
    public async Task The_page_of_the_scale_offers_no_can_of_another_refrigerant()
    {
        await using var site = await SiteAsync();
        foreach (var (name, refrigerant) in new[] { ("amber", "R-134a"), ("crimson", "R-1234yf") })
            await site.Desk.AddContainerAsync(
                new Dictionary<string, string>
                {
                    ["name"] = name,
                    ["kind"] = "can",
                    ["refrigerant"] = refrigerant,
                    ["net-as-sold"] = "500 g",
                },
                null,
                Cancellation
            );
        using var client = site.Client();
        var page = await PageAsync(client, "/jobs/1/weigh-in");
        Assert.Contains("amber", page, StringComparison.Ordinal);
        Assert.DoesNotContain("crimson", page, StringComparison.Ordinal);
    }
}
