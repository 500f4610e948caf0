using System.Net;
using System.Text.RegularExpressions;
using Tightcold.App.Demo;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Photos;
using Tightcold.Web.Tests.Bench;

namespace Tightcold.Web.Tests;

/// <summary>One set of pages, two hosts: what the site beside the car says, the phone says too.</summary>
public sealed partial class HostsAgreeTests(DemoSite demo)
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    /// <summary>What is only on a machine that others reach, and what only a phone holds.</summary>
    private static readonly string[] OfOneHost = ["/devices"];

    [Fact]
    public async Task Every_page_of_the_demo_is_the_same_in_the_phone_to_the_letter()
    {
        using var site = (await demo.SiteAsync()).Client();
        await using var phone = await PhoneSite.WithDemoAsync();
        using var inPhone = phone.Client();
        var pages = (await Crawl.PagesAsync(site, Cancellation)).Except(OfOneHost).ToArray();
        Assert.True(pages.Length > 40, string.Join('\n', pages));
        foreach (var path in pages)
            AssertSame(path, await MainOfAsync(site, path), await MainOfAsync(inPhone, path));
    }

    private static void AssertSame(string path, string there, string here)
    {
        var at = there.Zip(here).TakeWhile(pair => pair.First == pair.Second).Count();
        string Around(string text) => text[Math.Max(0, at - 150)..Math.Min(text.Length, at + 150)];
        Assert.True(there == here, $"{path}\nthere: {Around(there)}\nhere:  {Around(here)}");
    }

    [Fact]
    public async Task In_other_units_and_another_light_they_agree_too()
    {
        await using var other = await RunningSite.WithDemoAsync();
        using var site = other.Client();
        await using var phone = await PhoneSite.WithDemoAsync();
        using var inPhone = phone.Client();
        foreach (var client in new[] { site, inPhone })
        {
            foreach (var (path, field, value) in new[] { ("/units", "system", "us"), ("/light", "light", "night") })
            {
                var hidden = await client.HiddenOfAsync("/kit");
                hidden[field] = value;
                hidden["back"] = "/jobs/1";
                using var answer = await client.SendAsync(path, hidden);
                Assert.Equal("/jobs/1", answer.Headers.Location?.OriginalString);
            }
        }
        foreach (var path in new[] { "/jobs/1", "/jobs/1/steps/hold", "/jobs/1/weigh-in", "/jobs/1/expect", "/ledger" })
            AssertSame(path, await MainOfAsync(site, path), await MainOfAsync(inPhone, path));
        Assert.Contains("psi", await MainOfAsync(inPhone, "/jobs/1/steps/standing-pressure"), StringComparison.Ordinal);
        Assert.Contains(
            "class=\"night\"",
            await inPhone.GetStringAsync(new Uri("/", UriKind.Relative), Cancellation),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task The_card_the_calendar_the_ledger_and_the_files_are_the_same_to_the_byte()
    {
        using var site = (await demo.SiteAsync()).Client();
        await using var phone = await PhoneSite.WithDemoAsync();
        using var inPhone = phone.Client();
        foreach (
            var path in new[]
            {
                "/jobs/1/card",
                "/jobs/1/card.html",
                "/jobs/1/next-check.ics",
                "/ledger.csv",
                "/jobs/1/export",
                "/everything",
            }
        )
        {
            using var one = await site.GetAsync(new Uri(path, UriKind.Relative), Cancellation);
            using var other = await inPhone.GetAsync(new Uri(path, UriKind.Relative), Cancellation);
            Assert.Equal((path, one.StatusCode), (path, other.StatusCode));
            Assert.Equal(one.Content.Headers.ContentType?.MediaType, other.Content.Headers.ContentType?.MediaType);
            Assert.Equal(
                one.Content.Headers.ContentDisposition?.FileNameStar,
                other.Content.Headers.ContentDisposition?.FileNameStar
            );
            Assert.Equal(
                await one.Content.ReadAsStringAsync(Cancellation),
                await other.Content.ReadAsStringAsync(Cancellation)
            );
        }
    }

    [Fact]
    public async Task The_same_forms_lead_to_the_same_places_and_the_same_journal()
    {
        await using var running = await RunningSite.StartAtAsync(DemoScenario.Start);
        await using var phone = PhoneSite.At(DemoScenario.Start);
        var (car, job, first) = (Guid.CreateVersion7(), Guid.CreateVersion7(), Guid.CreateVersion7());
        (string Path, (string Name, string Value)[] Fields)[] forms =
        [
            ("/kit", [("f.owner", "Ada"), ("f.scale-error", "5"), ("u.scale-error", "g")]),
            ("/kit/containers/new", [("f.name", "can 1"), ("f.refrigerant", "R-134a"), ("f.kind", "can")]),
            ("/cars/new", [("f.label", "Green van"), ("f.refrigerant", "R-134a"), ("id", $"{car}"), ("then", "job")]),
            ("/cars/new", [("f.label", ""), ("f.refrigerant", "R-134a")]),
            ($"/cars/{car}/edit", [("f.label", "Green van"), ("f.refrigerant", "R-134a"), ("units", "us")]),
            ($"/cars/{car}/jobs/new", [("complaint", "blows warm"), ("id", $"{job}"), ("filled", "12")]),
            (
                "/jobs/1/entries/new/standing-reading",
                [
                    ("id", $"{first}"),
                    ("f.low-side", "68"),
                    ("u.low-side", "psig"),
                    ("f.ambient-temperature", "24"),
                    ("u.ambient-temperature", "°C"),
                ]
            ),
            ("/jobs/1/entries/new/standing-reading", [("f.low-side", "a lot"), ("u.low-side", "bar gauge")]),
            ("/jobs/1/entries/new/note", [("id", $"{Guid.CreateVersion7()}"), ("f.text", "hums, “softly”")]),
            (
                $"/jobs/1/entries/{first}/correct",
                [
                    ("id", $"{Guid.CreateVersion7()}"),
                    ("f.low-side", "66"),
                    ("u.low-side", "psig"),
                    ("reason", "misread"),
                ]
            ),
            ("/jobs/1/ways", [("price-refrigerant", "40"), ("size", "kg"), ("hourly-rate", "50")]),
            ("/jobs/99/entries/new/note", [("f.text", "no such job")]),
        ];
        using var site = running.Client();
        using var inPhone = phone.Client();
        var token = (await site.HiddenOfAsync("/kit"))["token"];
        foreach (var (path, fields) in forms)
        {
            using var one = await site.SendAsync(path, [.. Pairs(fields), new("token", token)]);
            using var other = await inPhone.SendAsync(path, Pairs(fields));
            // A server says 302 to a browser of old, which a phone has not.
            Assert.Equal((path, Plain(one.StatusCode)), (path, Plain(other.StatusCode)));
            Assert.Equal(
                (path, Unnamed(one.Headers.Location?.OriginalString ?? "")),
                (path, Unnamed(other.Headers.Location?.OriginalString ?? ""))
            );
            running.Clock.Advance(TimeSpan.FromMinutes(1));
            phone.Clock.Advance(TimeSpan.FromMinutes(1));
        }
        var (there, here) = (
            (await running.Desk.RecordAsync(1, Cancellation))!,
            (await phone.Desk.RecordAsync(1, Cancellation))!
        );
        Assert.Equal(there.Journal.All.Length, here.Journal.All.Length);
        Assert.Equal(
            there.Journal.All.Select(entry => (entry.Kind, entry.ObservedAt, entry.Who, entry.Reason)),
            here.Journal.All.Select(entry => (entry.Kind, entry.ObservedAt, entry.Who, entry.Reason))
        );
        // Odds follow the seed, which is drawn for each job; what was written down does not.
        foreach (var path in new[] { "/jobs/1/journal", "/kit", "/" })
            AssertSame(path, await MainOfAsync(site, path), await MainOfAsync(inPhone, path));
    }

    [Fact]
    public async Task A_photo_is_kept_in_the_phone_and_comes_back_to_the_byte()
    {
        await using var phone = await PhoneSite.WithDemoAsync();
        using var client = phone.Client();
        var entry = (await phone.Desk.RecordAsync(1, Cancellation))!.Journal.OfKind(EntryKinds.LeakCheck).First();
        // The smallest JPEG: eight by eight pixels of one colour, a frame, a scan (ITU-T T.81).
        byte[] frame = [0xFF, 0xC0, 0, 11, 8, 0, 8, 0, 8, 1, 1, 0x11, 0],
            scan = [0xFF, 0xDA, 0, 8, 1, 1, 0, 0, 63, 0, 7];
        byte[] picture = [0xFF, 0xD8, .. frame, .. scan, 0xFF, 0xD9];
        using var form = new MultipartFormDataContent { { new ByteArrayContent(picture), "photo", "spot.jpg" } };
        using var sent = await client.PostAsync(
            new Uri($"/jobs/1/entries/{entry.Id}/photos", UriKind.Relative),
            form,
            Cancellation
        );
        var page = await client.GetStringAsync(new Uri($"/jobs/1/entries/{entry.Id}", UriKind.Relative), Cancellation);
        Assert.Equal(HttpStatusCode.SeeOther, sent.StatusCode);
        var at = PhotoAddress().Match(page).Value;
        using var answer = await client.GetAsync(new Uri(at, UriKind.Relative), Cancellation);
        Assert.Equal(Photo.MediaType, answer.Content.Headers.ContentType?.MediaType);
        Assert.Equal(picture, await answer.Content.ReadAsByteArrayAsync(Cancellation));
    }

    [Fact]
    public async Task A_full_phone_gives_the_form_back_and_what_was_typed_counts_once_from_when_it_was_sent_first()
    {
        await using var phone = await PhoneSite.WithDemoAsync();
        using var client = phone.Client();
        var count = (await phone.Desk.EntryCountAsync(1, Cancellation))!.Value;
        phone.Disk.Room = phone.Disk.Length;
        var sentAt = phone.Clock.GetUtcNow();
        var id = Guid.CreateVersion7();
        using var refused = await client.SendAsync(
            "/jobs/1/entries/new/note",
            Pairs([("id", $"{id}"), ("f.text", "the fan hums")])
        );
        Assert.Equal(507, (int)refused.StatusCode);
        var page = await refused.Content.ReadAsStringAsync(Cancellation);
        Assert.Contains("The disk is full", page, StringComparison.Ordinal);
        Assert.Contains("the fan hums", page, StringComparison.Ordinal);
        Assert.Equal(count, (await phone.Desk.EntryCountAsync(1, Cancellation))!.Value);

        phone.Disk.Room = long.MaxValue;
        phone.Clock.Advance(TimeSpan.FromMinutes(7));
        for (var i = 0; i < 2; i++)
        {
            using var again = await client.SendAsync("/jobs/1/entries/new/note", PostedForms.HiddenIn(page));
            Assert.Equal(303, (int)again.StatusCode);
        }
        var note = (await phone.Desk.RecordAsync(1, Cancellation))!.Journal.Find(id)!;
        Assert.Equal(count + 1, (await phone.Desk.EntryCountAsync(1, Cancellation))!.Value);
        Assert.InRange((note.ObservedAt - sentAt).TotalSeconds, -1, 1);
    }

    [Fact]
    public async Task A_copy_of_everything_is_asked_for_until_it_is_taken_and_again_after_the_next_entry()
    {
        await using var phone = await PhoneSite.WithDemoAsync();
        using var client = phone.Client();
        Task<string> StartAsync() => client.GetStringAsync(new Uri("/", UriKind.Relative), Cancellation);
        Assert.Contains("No copy was taken yet", await StartAsync(), StringComparison.Ordinal);
        var copy = await client.GetStringAsync(new Uri("/everything", UriKind.Relative), Cancellation);
        Assert.Contains("Everything is in the copy of", await StartAsync(), StringComparison.Ordinal);
        using var note = await client.SendAsync("/jobs/1/entries/new/note", Pairs([("f.text", "one more")]));
        Assert.Contains("Something was written down since", await StartAsync(), StringComparison.Ordinal);

        // Another phone takes it in, and holds the same; the same file again changes nothing.
        await using var other = PhoneSite.At(DemoScenario.Start.AddHours(9));
        using var there = other.Client();
        for (var i = 0; i < 2; i++)
        {
            using var form = new MultipartFormDataContent
            {
                { new ByteArrayContent(System.Text.Encoding.UTF8.GetBytes(copy)), "file", "copy.json" },
            };
            using var taken = await there.PostAsync(new Uri("/import", UriKind.Relative), form, Cancellation);
            Assert.Equal("/jobs/1", taken.Headers.Location?.OriginalString);
        }
        Assert.Equal(copy, await there.GetStringAsync(new Uri("/everything", UriKind.Relative), Cancellation));
    }

    [Fact]
    public async Task A_page_that_is_nowhere_and_a_form_that_is_none_are_said_to_be_so()
    {
        await using var phone = PhoneSite.At(DemoScenario.Start);
        using var client = phone.Client();
        foreach (
            var (path, words) in new[]
            {
                ("/no/such/place", "There is no such page"),
                ("/units", "That does not work here"),
            }
        )
        {
            using var answer = await client.GetAsync(new Uri(path, UriKind.Relative), Cancellation);
            Assert.Contains(words, await answer.Content.ReadAsStringAsync(Cancellation), StringComparison.Ordinal);
            Assert.InRange((int)answer.StatusCode, 404, 405);
        }
    }

    [Fact]
    public async Task A_script_that_asks_is_told_where_to_go_and_that_nothing_is_new()
    {
        await using var phone = await PhoneSite.WithDemoAsync();
        using var client = phone.Client();
        using var asked = new HttpRequestMessage(HttpMethod.Post, "/jobs/1/entries/new/note");
        asked.Content = new FormUrlEncodedContent(Pairs([("f.text", "hums")]));
        asked.Headers.Add("X-Tightcold-Kept", "1");
        using var kept = await client.SendAsync(asked, Cancellation);
        Assert.Equal(HttpStatusCode.NoContent, kept.StatusCode);
        Assert.StartsWith(
            "/jobs/1?wrote=",
            Assert.Single(kept.Headers.GetValues("X-Tightcold-Go")),
            StringComparison.Ordinal
        );
        using var news = await client.GetAsync(new Uri("/jobs/1/news", UriKind.Relative), Cancellation);
        using var again = new HttpRequestMessage(HttpMethod.Get, "/jobs/1/news");
        again.Headers.TryAddWithoutValidation("If-None-Match", news.Headers.ETag!.Tag);
        using var nothing = await client.SendAsync(again, Cancellation);
        Assert.Equal(HttpStatusCode.NotModified, nothing.StatusCode);
    }

    private static int Plain(HttpStatusCode status) => status == HttpStatusCode.Found ? 303 : (int)status;

    private static IEnumerable<KeyValuePair<string, string>> Pairs((string Name, string Value)[] fields) =>
        fields.Select(field => KeyValuePair.Create(field.Name, field.Value));

    /// <summary>What a person sees of a page, without the marks that are another in each answer.</summary>
    private static async Task<string> MainOfAsync(HttpClient client, string path)
    {
        var html = await client.GetStringAsync(new Uri(path, UriKind.Relative), Cancellation);
        html = html[html.IndexOf("<main", StringComparison.Ordinal)..];
        // The server's renderer says where a form goes that goes to its own page; said or not, it goes there.
        html = html.Replace($" action=\"{WebUtility.HtmlEncode(path)}\"", "", StringComparison.Ordinal);
        return Blank().Replace(Unnamed(OnlyThere().Replace(Token().Replace(html, ""), "")), "\n");
    }

    /// <summary>Ids are drawn anew wherever something may be written down.</summary>
    private static string Unnamed(string text) => Id().Replace(text, "an id");

    [GeneratedRegex("<input type=\"hidden\" name=\"token\"[^>]*>")]
    private static partial Regex Token();

    [GeneratedRegex(
        "<section class=\"told[^\"]*\">\\s*<h2>Kept on this phone only.*?</section>"
            + "|<a class=\"press\" href=\"/(?:devices|everything)\"[^>]*>[^<]*</a>"
            + "|<svg class=\"qr\".*?</svg>|<div class=\"told mind\"><h2>Opens on this machine only.*?</div>",
        RegexOptions.Singleline
    )]
    private static partial Regex OnlyThere();

    [GeneratedRegex("[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}")]
    private static partial Regex Id();

    [GeneratedRegex("\\s+")]
    private static partial Regex Blank();

    [GeneratedRegex("/jobs/1/photos/[0-9a-f-]{36}")]
    private static partial Regex PhotoAddress();
}
