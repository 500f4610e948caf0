using System.Net;
using Tightcold.Jobs.Entries;
using Tightcold.Web.Http;
using Tightcold.Web.Tests.Bench;

namespace Tightcold.Web.Tests;

/// <summary>The live weigh-in page: readings in, grams to go out; with and without scripts, with and without
/// network.</summary>
public sealed class WeighInTests(Chromium chromium, DemoSite demo)
{
    /// <summary>The demo at the moment its first can stands open on the scale.</summary>
    private static Task<RunningSite> AtTheScaleAsync() => RunningSite.WithDemoUntilAsync(TimeSpan.FromMinutes(276));

    private static async Task<int> ReadingsAsync(RunningSite site) =>
        (await site.Desk.RecordAsync(1, TestContext.Current.CancellationToken))!
            .Journal.OfKind(EntryKinds.ScaleReading)
            .Count();

    [Theory]
    [InlineData(390)]
    [InlineData(1280)]
    public async Task A_reading_typed_with_the_big_keys_brings_grams_to_go_rate_and_next_stop(int width)
    {
        await using var site = await AtTheScaleAsync();
        await using var person = await chromium.PersonAsync(site, width);
        await person.OpenAsync("/jobs/1/weigh-in");
        await person.SeesAsync("to go of 550 g");
        site.Clock.Advance(TimeSpan.FromMinutes(3));
        foreach (var key in new[] { "3", "7", "9", "back", "8" })
            await person.Page.Locator($"button[data-key='{key}']").ClickAsync();
        Assert.Equal("378", await person.Page.Locator("#gross").InputValueAsync());
        await person.Page.Locator("button[data-step='-1']").ClickAsync();
        await person.PressAsync("Write it down");
        await person.Page.GetByText("Rate between the last two readings").WaitForAsync();
        Assert.Equal(2, await ReadingsAsync(site));
        await person.SeesAsync("Close Can A when the scale shows");
        await person.SeesAsync("Time left at that rate");
        Assert.Empty(await person.RulesBrokenAsync());
        Assert.Empty(await person.TooSmallAsync());
        Assert.False(await person.ScrollsSidewaysAsync());
        await person.PictureAsync($"weigh-in-{width}");
        Assert.Empty(site.Failures);
    }

    [Fact]
    public async Task The_page_opens_before_anything_was_written_down()
    {
        await using var site = await RunningSite.StartAsync();
        var car = (
            await site.Desk.AddCarAsync(
                new Dictionary<string, string>
                {
                    ["label"] = "Grey estate",
                    ["refrigerant"] = "R-134a",
                    ["label-charge"] = "550 g",
                },
                TestContext.Current.CancellationToken
            )
        ).Value!;
        await site.Desk.AddContainerAsync(
            new Dictionary<string, string>
            {
                ["name"] = "A",
                ["kind"] = "can",
                ["refrigerant"] = "R-134a",
                ["net-as-sold"] = "340 g",
                ["tare"] = "97 g",
            },
            cancellation: TestContext.Current.CancellationToken
        );
        await site.Desk.OpenJobAsync(car.Id, "Warm", TestContext.Current.CancellationToken);
        using var client = site.Client();
        Assert.Contains(
            "to go of 550 g",
            await client.GetStringAsync(
                new Uri("/jobs/1/weigh-in", UriKind.Relative),
                TestContext.Current.CancellationToken
            ),
            StringComparison.Ordinal
        );
        Assert.Empty(site.Failures);
    }

    [Fact]
    public async Task Without_scripts_the_form_does_the_same()
    {
        await using var site = await AtTheScaleAsync();
        await using var person = await chromium.PersonAsync(site, 390, scripts: false);
        await person.OpenAsync("/jobs/1/weigh-in");
        Assert.False(await person.Page.Locator(".keys").IsVisibleAsync());
        await person.Page.Locator("#gross").FillAsync("377");
        site.Clock.Advance(TimeSpan.FromMinutes(3));
        await person.PressAsync("Write it down");
        Assert.Equal(2, await ReadingsAsync(site));
        await person.Page.Locator("#gross").FillAsync("50");
        await person.PressAsync("Write it down");
        await person.SeesAsync("cannot weigh less than its tare");
        Assert.Equal("50", await person.Page.Locator("#gross").InputValueAsync());
        Assert.Equal(2, await ReadingsAsync(site));
    }

    [Fact]
    public async Task Without_network_a_reading_stays_in_the_browser_over_a_reload_and_is_sent_once_when_it_is_back()
    {
        await using var site = await AtTheScaleAsync();
        await using var person = await chromium.PersonAsync(site, 390);
        await person.OpenAsync("/jobs/1/weigh-in");
        await person.Page.RouteAsync("**/weigh-in", route =>
            route.Request.Method == "POST" ? route.AbortAsync() : route.ContinueAsync()
        );
        await person.Page.Locator("#gross").FillAsync("377");
        await person.PressAsync("Write it down");
        await person.Page.GetByText("waits for the network").WaitForAsync();
        Assert.Equal(1, await ReadingsAsync(site));
        // The phone drops the page and brings it back: the reading is still there, and goes out when the network is.
        site.Clock.Advance(TimeSpan.FromMinutes(4));
        await person.ReloadAsync();
        await person.Page.GetByText("waits for the network").WaitForAsync();
        await person.Page.UnrouteAllAsync();
        await person.Page.EvaluateAsync("dispatchEvent(new Event('online'))");
        await person.Page.GetByText("Rate between the last two readings").WaitForAsync();
        Assert.Equal(2, await ReadingsAsync(site));
        await person.OpenAsync("/jobs/1/weigh-in");
        Assert.Equal(2, await ReadingsAsync(site));
        Assert.Equal(
            "[]",
            await person.Page.EvaluateAsync<string>(
                "Object.entries(localStorage).filter(([key]) => !key.endsWith('draft')).map(([, value]) => value).join() || '[]'"
            )
        );
    }

    [Fact]
    public async Task A_draft_survives_a_reload_and_a_refused_reading_stays_with_its_reason()
    {
        await using var site = await AtTheScaleAsync();
        await using var person = await chromium.PersonAsync(site, 390);
        await person.OpenAsync("/jobs/1/weigh-in");
        await person.Page.Locator("#gross").FillAsync("41");
        await person.ReloadAsync();
        Assert.Equal("41", await person.Page.Locator("#gross").InputValueAsync());
        await person.PressAsync("Write it down");
        await person.Page.GetByText("not taken:").WaitForAsync();
        await person.SeesAsync("cannot weigh less than its tare");
        Assert.Equal(1, await ReadingsAsync(site));
        await person.PressAsync("Throw this reading away");
        Assert.False(await person.Page.Locator("#waiting").IsVisibleAsync());
    }

    [Fact]
    public async Task The_same_reading_sent_twice_is_written_once_and_the_pages_script_is_a_file_of_this_site()
    {
        await using var site = await AtTheScaleAsync();
        using var client = site.Client();
        var page = await client.GetAsync("/jobs/1/weigh-in", TestContext.Current.CancellationToken);
        var html = await page.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.Equal(SafeHeaders.Policy, page.Headers.GetValues("Content-Security-Policy").Single());
        var script = System
            .Text.RegularExpressions.Regex.Match(html, "<script src=\"(?<at>/weigh\\.[0-9a-f]{12}\\.js)\"")
            .Groups["at"]
            .Value;
        Assert.Equal(
            "text/javascript",
            (await client.GetAsync(script, TestContext.Current.CancellationToken))
                .Content
                .Headers
                .ContentType!
                .MediaType
        );

        var token = System
            .Text.RegularExpressions.Regex.Match(
                html[html.IndexOf("id=\"weigh\"", StringComparison.Ordinal)..],
                "name=\"token\"[^>]*value=\"(?<token>[^\"]+)\""
            )
            .Groups["token"]
            .Value;
        Task<HttpResponseMessage> Send(string id, string gross) =>
            client.PostAsync(
                "/jobs/1/weigh-in",
                new FormUrlEncodedContent(
                    new Dictionary<string, string>
                    {
                        ["token"] = token,
                        ["id"] = id,
                        ["container"] = "Can A",
                        ["gross"] = gross,
                        ["unit"] = "g",
                        ["ago"] = "30",
                    }
                ),
                TestContext.Current.CancellationToken
            );
        const string same = "3f2504e0-4f89-41d3-9a0c-0305e82c3301";
        for (var i = 0; i < 3; i++)
            Assert.Equal(HttpStatusCode.Redirect, (await Send(same, "377")).StatusCode);
        Assert.Equal(2, await ReadingsAsync(site));
        Assert.Equal(
            HttpStatusCode.UnprocessableEntity,
            (await Send("3f2504e0-4f89-41d3-9a0c-0305e82c3302", "nonsense")).StatusCode
        );
        Assert.Equal(2, await ReadingsAsync(site));
        var written = (await site.Desk.RecordAsync(1, TestContext.Current.CancellationToken))!.Journal.Find(
            Guid.Parse(same)
        )!;
        Assert.Equal(30, (site.Clock.GetUtcNow() - written.ObservedAt).TotalSeconds, 1.0);
    }

    [Theory]
    [InlineData(390)]
    [InlineData(1280)]
    public async Task The_ledger_sums_all_jobs_saves_as_a_table_and_the_car_tells_its_history(int width)
    {
        var site = await demo.SiteAsync();
        await using var person = await chromium.PersonAsync(site, width);
        await person.OpenAsync("/");
        await person.FollowAsync("Refrigerant ledger");
        await person.SeesAsync("By container");
        await person.SeesAsync("Can A");
        Assert.Empty(await person.RulesBrokenAsync());
        Assert.Empty(await person.TooSmallAsync());
        Assert.False(await person.ScrollsSidewaysAsync());
        await person.PictureAsync($"ledger-{width}");
        using var client = site.Client();
        Assert.StartsWith(
            "job,date,car",
            await client.GetStringAsync("/ledger.csv", TestContext.Current.CancellationToken),
            StringComparison.Ordinal
        );
        await person.OpenAsync(
            $"/cars/{(await site.Desk.RecordAsync(1, TestContext.Current.CancellationToken))!.Car.Id}"
        );
        await person.SeesAsync("Over the years");
        Assert.Empty(await person.RulesBrokenAsync());
        Assert.Empty(site.Failures);
    }
}
