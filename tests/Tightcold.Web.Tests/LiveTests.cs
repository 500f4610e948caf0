using System.Net;
using Microsoft.Playwright;
using Tightcold.App.Desk;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Web.Tests.Bench;

namespace Tightcold.Web.Tests;

/// <summary>Two devices on one job: each sees what the other writes, and loses nothing of its own.</summary>
public sealed class LiveTests(Chromium chromium, DemoSite demo)
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    private static async Task<RunningSite> SiteAsync()
    {
        var site = await RunningSite.StartAsync();
        var car = (
            await site.Desk.AddCarAsync(
                new Dictionary<string, string>
                {
                    ["label"] = "Grey estate",
                    ["refrigerant"] = "R-134a",
                    ["label-charge"] = "550 g",
                },
                Cancellation
            )
        ).Value!;
        await site.Desk.OpenJobAsync(car.Id, "Warm at idle", Cancellation);
        return site;
    }

    private static async Task NoteAsync(RunningSite site, string text) =>
        Assert.True(
            (
                await site.Desk.AddEntryAsync(
                    1,
                    EntryKinds.Note,
                    new Dictionary<string, string> { ["text"] = text },
                    null,
                    "Ada",
                    cancellation: Cancellation
                )
            ).Taken
        );

    private static ILocator Words(Person person, string words) =>
        person.Page.Locator("ol.journal > li").Filter(new() { HasText = words });

    [Fact]
    public async Task What_the_phone_writes_appears_on_the_laptop_and_the_other_way_round_without_a_reload()
    {
        await using var site = await SiteAsync();
        await using var phone = await chromium.PersonAsync(site, 390);
        await using var laptop = await chromium.PersonAsync(site, 1280);
        await laptop.OpenAsync("/jobs/1/journal");
        await laptop.Page.EvaluateAsync("window.sameDocument = true");
        await phone.OpenAsync("/jobs/1/journal");
        await phone.WriteDownAsync(EntryKinds.Weather, ("ambient-temperature", "30 °C"));
        await Words(laptop, "30").First.WaitForAsync();
        Assert.True(await laptop.Page.EvaluateAsync<bool>("window.sameDocument === true"));
        await laptop.SeesAsync("30.0 °C");
        Assert.Equal(
            "1 new entry from another device, shown below.",
            await laptop.Page.Locator(".news").InnerTextAsync()
        );

        await phone.OpenAsync("/jobs/1/journal");
        await phone.Page.EvaluateAsync("window.sameDocument = true");
        await laptop.WriteDownAsync(EntryKinds.Note, ("text", "dye at the condenser"));
        await Words(phone, "dye at the condenser").WaitForAsync();
        Assert.True(await phone.Page.EvaluateAsync<bool>("window.sameDocument === true"));
        // The same words as after a reload.
        var live = await phone.SeesAsync();
        await phone.ReloadAsync();
        Assert.Equal(await phone.SeesAsync(), live);
    }

    [Fact]
    public async Task A_page_that_cannot_wait_for_the_odds_of_faults_comes_without_them_and_shows_them_when_they_are_there()
    {
        await using var site = await RunningSite.WithDemoAsync(TimeSpan.Zero);
        await using var phone = await chromium.PersonAsync(site, 390);
        // As it came: by the time a slow machine has drawn it, the odds may be there.
        var came = await (await phone.OpenAsync("/jobs/1/steps/what-is-wrong"))!.TextAsync();
        Assert.Contains("Not weighed yet: that takes a second or two.", came, StringComparison.Ordinal);
        await phone.Page.Locator("main").Filter(new() { HasText = "Odds" }).WaitForAsync();
        var how = await phone.Page.EvaluateAsync<string>("performance.getEntriesByType('navigation')[0].type");
        Assert.Equal("navigate", how);
        Assert.Equal("", await phone.Page.Locator(".news").InnerTextAsync());
        Assert.Empty(await phone.RulesBrokenAsync());
        // Seen again, everything is there at once; so it is after a note, which changes no reading.
        using var client = site.Client();
        await NoteAsync(site, "belt squeals");
        var html = await client.GetStringAsync(new Uri("/jobs/1/steps/what-is-wrong", UriKind.Relative), Cancellation);
        Assert.DoesNotContain("Not weighed yet", html, StringComparison.Ordinal);
        Assert.Contains(
            "belt squeals",
            await client.GetStringAsync(new Uri("/jobs/1/journal", UriKind.Relative), Cancellation),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task Without_scripts_the_page_that_waits_for_odds_loads_itself_again()
    {
        await using var site = await RunningSite.WithDemoAsync(TimeSpan.Zero);
        await using var phone = await chromium.PersonAsync(site, 390, scripts: false);
        await phone.OpenAsync("/jobs/1/steps/what-is-wrong");
        await phone
            .Page.Locator("main")
            .Filter(new() { HasText = "Odds" })
            .WaitForAsync(new() { State = WaitForSelectorState.Attached });
        Assert.DoesNotContain("http-equiv", await phone.Page.ContentAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_card_never_goes_to_paper_with_faults_unweighed()
    {
        await using var site = await RunningSite.WithDemoAsync(TimeSpan.Zero);
        using var client = site.Client();
        await client.GetStringAsync(new Uri("/jobs/1", UriKind.Relative), Cancellation);
        Assert.DoesNotContain(
            "Not weighed yet",
            await client.GetStringAsync(new Uri("/jobs/1/card", UriKind.Relative), Cancellation),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task Who_is_typing_is_told_how_many_entries_are_new_and_keeps_what_is_typed()
    {
        await using var site = await SiteAsync();
        await using var laptop = await chromium.PersonAsync(site, 1280);
        await laptop.OpenAsync("/jobs/1/journal");
        // A field on the page, as a page with a form in it would have.
        await laptop.Page.EvaluateAsync(
            "() => { const field = document.createElement('input'); field.id = 'typed'; document.getElementById('main').prepend(field); }"
        );
        await laptop.Page.Locator("#typed").FillAsync("28 ps");
        await NoteAsync(site, "first of two");
        await NoteAsync(site, "second of two");
        var bar = laptop.Page.Locator(".news");
        await bar.GetByText("2 new entries from another device.").WaitForAsync();
        Assert.Equal("28 ps", await laptop.Page.Locator("#typed").InputValueAsync());
        Assert.Equal(0, await Words(laptop, "second of two").CountAsync());
        // Leaving the field is no leave to throw away what stands in it.
        await laptop.Page.Locator("h1").ClickAsync();
        await NoteAsync(site, "third");
        await bar.GetByText("3 new entries from another device.").WaitForAsync();
        Assert.Equal("28 ps", await laptop.Page.Locator("#typed").InputValueAsync());
        await bar.GetByRole(AriaRole.Button, new() { Name = "Show" }).ClickAsync();
        await Words(laptop, "second of two").WaitForAsync();
        await Words(laptop, "third").WaitForAsync();
    }

    [Fact]
    public async Task What_was_unfolded_by_hand_stays_open_and_the_page_does_not_jump()
    {
        await using var site = await SiteAsync();
        await using var phone = await chromium.PersonAsync(site, 390);
        await phone.OpenAsync("/jobs/1");
        await phone.Page.GetByText("Why", new() { Exact = true }).TapAsync();
        var step = phone.Page.Locator("#hold");
        await step.ScrollIntoViewIfNeededAsync();
        var before = (await step.BoundingBoxAsync())!.Y;
        await NoteAsync(site, "a note");
        await phone.Page.Locator(".news").GetByText("1 new entry from another device, shown below.").WaitForAsync();
        Assert.NotNull(await phone.Page.Locator(".now-line details").GetAttributeAsync("open"));
        Assert.InRange((await step.BoundingBoxAsync())!.Y - before, -120, 120);
    }

    [Fact]
    public async Task An_instance_shows_what_was_written_through_another_instance_on_the_same_data()
    {
        await using var site = await SiteAsync();
        await using var second = await site.SecondAsync();
        await using var laptop = await chromium.PersonAsync(site, 1280);
        await laptop.OpenAsync("/jobs/1/journal");
        await NoteAsync(second, "written next door");
        await Words(laptop, "written next door").WaitForAsync();
    }

    [Fact]
    public async Task Nothing_new_is_an_answer_without_a_body_and_a_strike_is_news_too()
    {
        await using var site = await SiteAsync();
        using var client = site.Client();
        using var first = await client.GetAsync(new Uri("/jobs/1/news", UriKind.Relative), Cancellation);
        Assert.Equal("\"0\"", first.Headers.ETag!.Tag);
        client.DefaultRequestHeaders.Add("If-None-Match", first.Headers.ETag.Tag);
        using var again = await client.GetAsync(new Uri("/jobs/1/news", UriKind.Relative), Cancellation);
        Assert.Equal(HttpStatusCode.NotModified, again.StatusCode);
        Assert.Empty(await again.Content.ReadAsByteArrayAsync(Cancellation));
        await NoteAsync(site, "a note");
        using var more = await client.GetAsync(new Uri("/jobs/1/news", UriKind.Relative), Cancellation);
        Assert.Equal("{\"entries\":1,\"weighed\":true}", await more.Content.ReadAsStringAsync(Cancellation));
        var entry = (await site.Desk.RecordAsync(1, Cancellation))!.Journal.All[0];
        Assert.True((await site.Desk.StrikeAsync(1, entry.Id, "Ada", "wrong car", Cancellation)).Taken);
        Assert.Equal(
            "{\"entries\":2,\"weighed\":true}",
            await client.GetStringAsync(new Uri("/jobs/1/news", UriKind.Relative), Cancellation)
        );
        Assert.Equal(HttpStatusCode.NotFound, await client.LooksAtAsync("/jobs/2/news"));
    }

    /// <summary>As the wire carries them: compressed, headers left out. The budget is that of a weak network: 150 kB at
    /// the first visit, 40 kB after it.</summary>
    [Theory]
    [InlineData("/", 0)]
    [InlineData("/jobs/1", 0)]
    [InlineData("/jobs/1", 500)]
    [InlineData("/jobs/1/journal", 500)]
    [InlineData("/jobs/1/search", 0)]
    [InlineData("/jobs/1/steps/what-is-wrong", 0)]
    [InlineData("/jobs/1/card", 0)]
    [InlineData("/jobs/1/weigh-in", 0)]
    [InlineData("/jobs/1/entries/new/running-reading", 500)]
    public async Task A_first_visit_weighs_less_than_150_kB_and_a_later_one_less_than_40(string path, int notes)
    {
        await using var own = notes > 0 ? await RunningSite.WithDemoAsync() : null;
        var site = own ?? await demo.SiteAsync();
        if (own is not null)
        {
            var record = await demo.RecordAsync();
            var there = record.Journal.All;
            Entry Note(int i) =>
                there[^1] with
                {
                    Id = Guid.NewGuid(),
                    Kind = EntryKinds.Note,
                    Supersedes = null,
                    Reason = null,
                    Fields = FieldBag.Empty.With(
                        "text",
                        new FieldValue.Text($"note {i}: dye at spot {i * 7919 % 1000}, looked at again")
                    ),
                };
            var more = Enumerable.Range(there.Length, notes - there.Length).Select(Note);
            var whole = record with { Journal = Journal.Create([.. there, .. more]).Journal!, Chain = [] };
            Assert.True((await own.Desk.ImportAsync(JobDesk.Export(whole), Cancellation)).Taken);
        }
        using var client = new HttpClient { BaseAddress = site.Address, Timeout = Hang.Limit };
        var key = RunningSite.OwnerCookie(site.OwnerKey).ToString();
        client.DefaultRequestHeaders.Add("Cookie", key);
        client.DefaultRequestHeaders.AcceptEncoding.ParseAdd("gzip, br");
        using var answer = await client.GetAsync(new Uri(path, UriKind.Relative), Cancellation);
        Assert.Equal("br", Assert.Single(answer.Content.Headers.ContentEncoding));
        var later = (await answer.Content.ReadAsByteArrayAsync(Cancellation)).Length;
        using var plain = new HttpClient(new HttpClientHandler { AutomaticDecompression = DecompressionMethods.All })
        {
            BaseAddress = site.Address,
            Timeout = Hang.Limit,
        };
        plain.DefaultRequestHeaders.Add("Cookie", key);
        var html = await plain.GetStringAsync(new Uri(path, UriKind.Relative), Cancellation);
        var first = later;
        foreach (
            var part in html.Split('"')
                .Where(word => word.StartsWith('/') && Path.GetExtension(word) is ".css" or ".js" or ".svg")
                .Distinct()
        )
        {
            using var loaded = await client.GetAsync(new Uri(part, UriKind.Relative), Cancellation);
            first += (await loaded.Content.ReadAsByteArrayAsync(Cancellation)).Length;
            Assert.Contains("max-age", loaded.Headers.CacheControl!.ToString(), StringComparison.Ordinal);
        }
        TestContext.Current.SendDiagnosticMessage(
            $"{path} with {notes} entries: {first / 1000.0:0.0} kB at first, {later / 1000.0:0.0} kB later"
        );
        Assert.InRange(first, 1, 150_000);
        Assert.InRange(later, 1, 40_000);
    }
}
