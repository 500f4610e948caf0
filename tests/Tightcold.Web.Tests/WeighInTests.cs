using Tightcold.Jobs.Entries;
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
        // 14 g less than the 392 g it showed: 536 of 550 g would be to go, said while it is typed.
        Assert.Equal("536 g", await person.Page.Locator("#to-go").InnerTextAsync());
        await person.PressAsync("Write it down");
        await person.SeesAsync("scale shows 378 g");
        Assert.Equal(2, await ReadingsAsync(site));
        await person.SeesAsync("Close it at");
        await person.SeesAsync("left to the mark");
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
        Assert.Equal("50", await person.StandsInAsync("gross"));
        Assert.Equal(2, await ReadingsAsync(site));
    }

    [Fact]
    public async Task Without_network_a_reading_stays_in_the_browser_over_a_reload_and_is_sent_once_when_it_is_back()
    {
        await using var site = await AtTheScaleAsync();
        await using var person = await chromium.PersonAsync(site, 390);
        await person.OpenAsync("/jobs/1/weigh-in");
        await person.Page.RouteAsync("**/scale-reading", route =>
            route.Request.Method == "POST" ? route.AbortAsync() : route.ContinueAsync()
        );
        await person.Page.Locator("#gross").FillAsync("377");
        await person.PressAsync("Write it down");
        // Back at the scale, not somewhere else.
        await person.ArrivesAsync("/jobs/1/weigh-in*");
        await person.SeesAsync("1 waiting for the network");
        Assert.Equal(1, await ReadingsAsync(site));
        site.Clock.Advance(TimeSpan.FromMinutes(4));
        await person.ReloadAsync();
        await person.SeesAsync("1 waiting for the network");
        await person.Page.UnrouteAllAsync();
        await person.Page.EvaluateAsync("dispatchEvent(new Event('online'))");
        await person.NothingWaitsAsync();
        Assert.Equal(2, await ReadingsAsync(site));
        await person.OpenAsync("/jobs/1/weigh-in");
        Assert.Equal(2, await ReadingsAsync(site));
    }

    [Fact]
    public async Task A_draft_survives_a_reload_stays_with_its_can_and_comes_along_into_other_units()
    {
        await using var site = await AtTheScaleAsync();
        await using var person = await chromium.PersonAsync(site, 390);
        await person.OpenAsync("/jobs/1/weigh-in");
        await person.Page.Locator("#gross").FillAsync("340");
        await person.ReloadAsync();
        Assert.Equal("340", await person.Page.Locator("#gross").InputValueAsync());
        // 340 g are 11.993 oz.
        await person.PressAsync("psi °F");
        Assert.Equal("11.99", await person.Page.Locator("#gross").InputValueAsync());
        Assert.Equal("oz", await person.Page.Locator("select[name='u.gross']").InputValueAsync());
        await person.PressAsync("bar °C");
        await person.OpenAsync("/jobs/1/weigh-in?can=Can%20B");
        Assert.Equal("", await person.Page.Locator("#gross").InputValueAsync());
    }

    [Fact]
    public async Task The_can_on_the_scale_changes_only_when_a_person_says_so()
    {
        await using var site = await AtTheScaleAsync();
        await using var person = await chromium.PersonAsync(site, 390);
        Task<string> OnScaleAsync() => person.Page.Locator("input[name='f.container']").First.InputValueAsync();
        async Task WeighAsync(string grams)
        {
            site.Clock.Advance(TimeSpan.FromMinutes(6));
            await person.Page.Locator("#gross").FillAsync(grams);
            await person.PressAsync("Write it down");
        }

        await person.OpenAsync("/jobs/1/weigh-in");
        Assert.Equal("Can A", await OnScaleAsync());
        await WeighAsync("227");
        Assert.Equal("Can A", await OnScaleAsync());
        // At its heel: the plan goes on with the next can, the page asks about this one.
        await WeighAsync("100");
        Assert.Equal("Can A", await OnScaleAsync());
        await person.SeesAsync("Is Can A empty?");
        await person.SeesAsync("Lift it and shake it");
        await person.PressAsync("Empty: closed");
        site.Clock.Advance(TimeSpan.FromSeconds(5));
        await person.PressAsync("Taken off");
        await person.SeesAsync("What stands on the scale?");
        Assert.Equal(0, await person.Page.Locator("#gross").CountAsync());
        await person.FollowAsync("Can B", exact: false);
        Assert.Equal("Can B", await OnScaleAsync());
        Assert.Empty(await person.RulesBrokenAsync());
        Assert.Empty(await person.TooSmallAsync());
    }

    [Fact]
    public async Task A_rising_scale_a_fall_that_cannot_be_and_another_can_are_asked_about_and_nothing_is_written()
    {
        await using var site = await AtTheScaleAsync();
        await using var person = await chromium.PersonAsync(site, 390, scripts: false);
        foreach (
            var (can, grams, minutes, asks) in new[]
            {
                ("Can A", "467", 5.0, "Can A got heavier by 75"),
                ("Can A", "150", 0.1, "nothing flows that fast"),
                ("Can B", "627", 0.1, "A moment ago Can A stood on the scale"),
            }
        )
        {
            if (minutes < 1)
            {
                await person.OpenAsync("/jobs/1/weigh-in");
                await person.Page.Locator("#gross").FillAsync(can == "Can A" ? "385" : "384");
                await person.PressAsync("Write it down");
            }
            var before = await ReadingsAsync(site);
            site.Clock.Advance(TimeSpan.FromMinutes(minutes));
            await person.OpenAsync($"/jobs/1/weigh-in?can={Uri.EscapeDataString(can)}");
            await person.Page.Locator("#gross").FillAsync(grams);
            await person.PressAsync("Write it down");
            await person.SeesAsync("Really?");
            await person.SeesAsync(asks);
            Assert.Equal(before, await ReadingsAsync(site));
        }
        await person.PressAsync("Yes, it is right");
        await person.ArrivesAsync("/jobs/1/weigh-in*");
        Assert.Equal(4, await ReadingsAsync(site));
    }

    [Fact]
    public async Task Hours_for_a_can_are_shown_only_with_the_warm_water_that_makes_them_minutes()
    {
        await using var site = await RunningSite.WithDemoUntilAsync(TimeSpan.FromMinutes(273.5));
        await using var person = await chromium.PersonAsync(site, 390);
        await person.OpenAsync("/jobs/1/weigh-in");
        var seen = await person.SeesAsync();
        Assert.Contains("as it stands:", seen, StringComparison.Ordinal);
        Assert.Contains("In water of 40", seen.ReplaceLineEndings(" "), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Twenty_grams_before_the_mark_it_calls_while_the_number_is_typed()
    {
        await using var site = await AtTheScaleAsync();
        await using var person = await chromium.PersonAsync(site, 390);
        await person.OpenAsync("/jobs/1/weigh-in");
        await person.Page.EvaluateAsync(
            "() => { window.shaken = 0; navigator.vibrate = () => { window.shaken++; return true; }; }"
        );
        await person.Page.Locator("#gross").FillAsync("200");
        Assert.Equal(0, await person.Page.EvaluateAsync<int>("window.shaken"));
        await person.Page.Locator("#gross").FillAsync("115");
        await person.Page.Locator(".alarm").GetByText("20 g to its mark").WaitForAsync();
        Assert.True(await person.Page.EvaluateAsync<int>("window.shaken") > 0, "the phone does not shake");
        Assert.Empty(await person.RulesBrokenAsync());
    }

    [Fact]
    public async Task The_mark_the_number_and_the_keys_stand_on_one_screen()
    {
        await using var site = await AtTheScaleAsync();
        await using var person = await chromium.PersonAsync(site, 390);
        await person.OpenAsync("/jobs/1/weigh-in");
        var low = await person.Page.EvaluateAsync<double>(
            "document.querySelector('.keys').getBoundingClientRect().bottom - document.querySelector('.bar').getBoundingClientRect().top"
        );
        Assert.True(low <= 1, $"the keys end {low} px below the bar");
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
