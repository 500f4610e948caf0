using System.Net;
using System.Text.RegularExpressions;
using Tightcold.Jobs.Entries;
using Tightcold.Web.Tests.Bench;

namespace Tightcold.Web.Tests;

/// <summary>States of a circuit on the site: job page, start page and draft card say the same line.</summary>
public sealed partial class StatesTests
{
    private const string Standing = "standing-reading|ambient-temperature=25 °C|since-engine-ran=9 h";
    private const string Weather = "weather|ambient-temperature=25 °C|relative-humidity=50 %|altitude=100 m";

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    private static async Task<RunningSite> SiteAsync(params string[] entries)
    {
        var site = await RunningSite.StartAsync();
        var car = (
            await site.Desk.AddCarAsync(
                new Dictionary<string, string>
                {
                    ["label"] = "blue estate",
                    ["refrigerant"] = "R-134a",
                    ["label-charge"] = "300 g",
                    ["compressor"] = "variable",
                    ["device"] = "expansion valve",
                },
                Cancellation
            )
        ).Value!;
        await site.Desk.AddContainerAsync(
            new Dictionary<string, string>
            {
                ["name"] = "A",
                ["kind"] = "can",
                ["refrigerant"] = "R-134a",
                ["net-as-sold"] = "500 g",
                ["tare"] = "128 g",
                ["gross-now"] = "627 g",
            },
            null,
            Cancellation
        );
        await site.Desk.OpenJobAsync(car.Id, "blows warm", Cancellation);
        foreach (var entry in entries.Select(entry => entry.Split('|')))
        {
            var fields = entry
                .Skip(1)
                .Select(field => field.Split('='))
                .ToDictionary(field => field[0], field => field[1]);
            Assert.True(
                (await site.Desk.AddEntryAsync(1, entry[0], fields, null, "Ada", cancellation: Cancellation)).Taken,
                string.Join(' ', entry)
            );
            site.Clock.Advance(TimeSpan.FromMinutes(9));
        }
        return site;
    }

    private static async Task<string> TextAsync(HttpClient client, string path) =>
        Spaces()
            .Replace(WebUtility.HtmlDecode(Tags().Replace(await client.GetStringAsync(path, Cancellation), " ")), " ");

    public static readonly TheoryData<string, string[], string, string[]> Cases = new()
    {
        {
            "open to air",
            [Weather, Standing + "|low-side=0 bar|high-side=0 bar"],
            "It came without pressure: there is a hole",
            ["Run it", "Liquid is present"]
        },
        {
            "changed over",
            [Weather, Standing + "|low-side=15 bar|high-side=2 bar"],
            "A reading cannot be.",
            ["Vapour only"]
        },
        {
            "nitrogen",
            [Weather, "pressure-test|gas=dry nitrogen|pressure=10 bar|gas-temperature=25 °C"],
            "Nitrogen is inside.",
            ["Draw from A"]
        },
        {
            "mended partly",
            [
                Weather,
                "leak-check|spot=condenser|test=soap bubbles|outcome=clear leak",
                "leak-check|spot=evaporator|test=soap bubbles|outcome=clear leak",
                "opened|spot=condenser",
                "part-changed|spot=condenser|part=condenser",
            ],
            "Still to mend: evaporator.",
            ["Pull it down"]
        },
        {
            "found by a search of the whole circuit",
            [
                Weather,
                Standing + "|low-side=5.6 bar|high-side=5.6 bar",
                "leak-search|test=electronic detector|showed=condenser|not-reached=evaporator|time-spent=20 min",
            ],
            "condenser",
            ["Proven tight:  yes"]
        },
        {
            "waits for a day",
            [Weather, Standing + "|low-side=5.6 bar|high-side=5.6 bar", "job-state|state=waiting|look-again-in=7"],
            "look again on 2026-07-21",
            ["Draw from A"]
        },
        {
            "hot vent",
            [
                Weather,
                "vent-reading|vent-temperature=6 °C|ambient-temperature=36 °C|air-source=recirculated|blower=full",
            ],
            "In this heat the vent alone does not tell.",
            ["Proven cold:  yes"]
        },
    };

    [Theory]
    [MemberData(nameof(Cases))]
    public async Task Job_page_start_page_and_draft_card_say_the_same_of_the_state_that_is(
        string state,
        string[] entries,
        string now,
        string[] unsaid
    )
    {
        await using var site = await SiteAsync(entries);
        using var client = site.Client();
        foreach (var path in new[] { "/jobs/1", "/", "/jobs/1/card" })
        {
            var text = await TextAsync(client, path);
            Assert.True(
                text.Contains(now, StringComparison.Ordinal),
                $"{state}, {path}: “{now}” is not said in\n{text}"
            );
            Assert.All(unsaid, words =>
                Assert.False(text.Contains(words, StringComparison.Ordinal), $"{state}, {path}: “{words}” is said")
            );
        }
    }

    [Fact]
    public async Task A_charge_onto_nitrogen_is_asked_back_once_keeps_the_form_and_is_marked_on_the_card()
    {
        await using var site = await SiteAsync(
            Weather,
            "pressure-test|gas=dry nitrogen|pressure=10 bar|gas-temperature=25 °C"
        );
        using var client = site.Client();
        const string form = "/jobs/1/entries/new/container-moved";
        var fields = new Dictionary<string, string>
        {
            ["f.container"] = "A",
            ["f.action"] = "opened",
            ["f.side"] = "low side",
        };
        using var asked = await client.SendAsync(form, fields.Concat(await client.HiddenOfAsync(form)));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, asked.StatusCode);
        var page = await asked.Content.ReadAsStringAsync(Cancellation);
        Assert.Contains("Nitrogen is inside: what goes in now mixes with it", page, StringComparison.Ordinal);
        Assert.Null((await site.Desk.RecordAsync(1, Cancellation))!.Journal.Last(EntryKinds.ContainerMoved));
        var really = WebUtility.HtmlDecode(Really().Match(page).Groups["key"].Value);
        using var written = await client.SendAsync(
            form,
            fields.Append(new("really", really)).Concat(await client.HiddenOfAsync(form))
        );
        Assert.Equal(HttpStatusCode.Found, written.StatusCode);
        Assert.Contains(
            "Marked: refrigerant went in on top of nitrogen",
            await TextAsync(client, "/jobs/1/card"),
            StringComparison.Ordinal
        );
    }

    [GeneratedRegex("<(style|script)[^>]*>.*?</\\1>|<[^>]+>", RegexOptions.Singleline)]
    private static partial Regex Tags();

    [GeneratedRegex(@"\s+")]
    private static partial Regex Spaces();

    [GeneratedRegex("name=\"really\" value=\"(?<key>[^\"]+)\"")]
    private static partial Regex Really();
}
