using Microsoft.Playwright;
using Tightcold.App.Units;
using Tightcold.Jobs.Entries;
using Tightcold.Web.Tests.Bench;

namespace Tightcold.Web.Tests;

/// <summary>Few taps, a question for what is hardly ever true, the keyboard alone, large print, and light for the
/// dark.</summary>
public sealed class HandsTests(Chromium chromium, DemoSite demo)
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    /// <summary>Which entry, from which step, by which taps besides the number: a radio button or a button's
    /// words.</summary>
    [Theory]
    [InlineData(10, "Standing pressure", EntryKinds.StandingReading, "low-side", "3.1")]
    [InlineData(60, "Running pressures", EntryKinds.RunningReading, "low-side", "1.2")]
    [InlineData(240, "Hold", EntryKinds.VacuumReading, "absolute-pressure", "1.3")]
    [InlineData(284, "Weigh in", EntryKinds.ScaleReading, "gross", "220")]
    [InlineData(330, "Prove cold", EntryKinds.VentReading, "vent-temperature", "9.1")]
    public async Task A_reading_takes_three_taps_and_the_number(
        int minute,
        string step,
        string kind,
        string field,
        string number
    )
    {
        await using var site = await RunningSite.WithDemoUntilAsync(TimeSpan.FromMinutes(minute));
        await using var person = await chromium.PersonAsync(site, 390);
        await person.OpenAsync("/jobs/1");
        var taps = 0;
        var line = person.Page.Locator($"#{step.ToLowerInvariant().Replace(' ', '-')} a");
        var form = kind == EntryKinds.ScaleReading ? "a[href$='/weigh-in']" : $"a[href*='/entries/new/{kind}']";
        // The step of now is at the thumb; another is a tap on its line away.
        if (await person.Page.Locator(".bar " + form).CountAsync() == 0)
        {
            await person.NextPageAsync(() => line.TapAsync());
            taps++;
        }
        await person.NextPageAsync(() => person.Page.Locator(form).Last.TapAsync());
        taps++;
        // The field has the keyboard already; a tap on it would be one more.
        if (
            !await person
                .Page.Locator($"input[name='f.{field}']")
                .EvaluateAsync<bool>("field => field === document.activeElement")
        )
        {
            await person.Page.Locator($"input[name='f.{field}']").TapAsync();
            taps++;
        }
        await person.Page.Keyboard.TypeAsync(number);
        await person.Page.GetByRole(AriaRole.Button, new() { Name = "Write it down", Exact = true }).TapAsync();
        taps++;
        await person.Page.Locator(".told[role=status]").WaitForAsync();
        Assert.InRange(taps, 2, 3);
        var written = (await site.Desk.RecordAsync(1, Cancellation))!.Journal.Last(kind)!;
        Assert.Equal(site.Clock.GetUtcNow(), written.ObservedAt.ToUniversalTime());
    }

    [Fact]
    public async Task An_unlikely_value_is_asked_about_once_and_then_taken_and_another_one_is_asked_about_again()
    {
        await using var site = await RunningSite.WithDemoUntilAsync(TimeSpan.FromMinutes(60));
        await using var person = await chromium.PersonAsync(site, 390);
        await person.OpenAsync("/jobs/1");
        var before = await person.JournalCountAsync();
        await person.OpenFormAsync(EntryKinds.RunningReading);
        // 12 bar on the low side: a digit too many, or the hoses crossed.
        await person.FillAsync("low-side", "12 bar gauge");
        await person.PressAsync("Write it down");
        await person.SeesAsync("Really?");
        await person.SeesAsync("Low side 12 bar gauge: usual is");
        Assert.Equal("12", await person.StandsInAsync("low-side"));
        Assert.Empty(await person.RulesBrokenAsync());
        Assert.Empty(await person.TooSmallAsync());
        await person.PictureAsync("really-390");
        await person.TypeAsync("low-side", "13");
        await person.PressAsync("Write it down");
        await person.SeesAsync("Low side 13 bar gauge: usual is");
        await person.PressAsync("Yes, it is right");
        await person.SeesAsync("Written down");
        Assert.Equal(before + 1, await person.JournalCountAsync());
        Assert.Equal(
            13e5,
            (await site.Desk.RecordAsync(1, Cancellation))!
                .Journal.Last(EntryKinds.RunningReading)!
                .Fields.Get<Tightcold.Quantities.GaugePressure>("low-side")!
                .Value.Si,
            1.0
        );
    }

    [Fact]
    public async Task Below_a_box_stands_what_a_sound_car_would_show_today_and_that_it_comes_from_a_model()
    {
        await using var site = await RunningSite.WithDemoUntilAsync(TimeSpan.FromMinutes(20));
        await using var person = await chromium.PersonAsync(site, 390);
        await person.OpenAsync("/jobs/1/entries/new/running-reading");
        Assert.Contains(
            "A sound car today, from a model:",
            await person.Page.Locator("#f-low-side-hint").InnerTextAsync(),
            StringComparison.Ordinal
        );
        Assert.Contains(
            "bar gauge",
            await person.Page.Locator("#f-high-side-hint").InnerTextAsync(),
            StringComparison.Ordinal
        );
        Assert.True(await person.Page.Locator("#f-low-side-hint svg.expect").IsVisibleAsync());
        // 24 °C in the morning: R-134a stands at 6.46 bar absolute there by the equation of state (645.8 kPa, tables of
        // the trade), 5.5 bar above the air of 640 m (938.9 hPa in the standard atmosphere).
        await person.OpenAsync("/jobs/1/entries/new/standing-reading");
        var hint = await person.Page.Locator("#f-low-side-hint").InnerTextAsync();
        Assert.Contains(
            "With liquid inside: 5.1 to 5.9 bar gauge",
            hint.ReplaceLineEndings(" "),
            StringComparison.Ordinal
        );
        await person.PictureAsync("expected-390");
    }

    [Fact]
    public async Task The_whole_way_from_the_empty_page_to_a_reading_goes_by_keyboard_alone()
    {
        await using var site = await RunningSite.StartAsync();
        await using var person = await chromium.PersonAsync(site, 1280);
        await person.OpenAsync("/");
        await person.TabToAsync("Add the first car");
        await person.EnterAsync("[name='f.label']");
        await person.TabToFieldAsync("f.label");
        await person.Page.Keyboard.TypeAsync("Grey estate");
        await person.TabToFieldAsync("f.refrigerant");
        await person.Page.Keyboard.PressAsync("Space");
        await person.TabToFieldAsync("f.label-charge");
        await person.Page.Keyboard.TypeAsync("550");
        await person.TabToAsync("Keep this car");
        await person.EnterAsync("a[href$='/jobs/new']");
        await person.TabToAsync("Open a job");
        await person.EnterAsync("[name=complaint]");
        await person.TabToFieldAsync("complaint");
        await person.Page.Keyboard.TypeAsync("Blows warm");
        await person.TabToAsync("Open the job");
        await person.EnterAsync(".walk");
        await person.TabToAsync("Write down: weather");
        await person.EnterAsync("[name='f.ambient-temperature']");
        await person.TabToFieldAsync("f.ambient-temperature");
        await person.Page.Keyboard.TypeAsync("24");
        await person.TabToAsync("Write it down");
        await person.Page.Keyboard.PressAsync("Enter");
        await person.Page.GetByText("Written down at").WaitForAsync();
        // The next form came by itself; from it back to now, and by Enter on a line to a step of its own.
        await person.TabToAsync("Now: job 1");
        await person.EnterAsync(".walk");
        await person.TabToAsync("Leak search", starts: true);
        await person.EnterAsync(".step-title");
        Assert.Empty(site.Failures);
    }

    [Theory]
    [InlineData("/")]
    [InlineData("/jobs/1")]
    [InlineData("/jobs/1/entries/new/running-reading")]
    [InlineData("/jobs/1/weigh-in")]
    [InlineData("/jobs/1/search")]
    [InlineData("/jobs/1/search/all")]
    [InlineData("/jobs/1/steps/running-pressures")]
    [InlineData("/jobs/1/ways")]
    [InlineData("/kit")]
    public async Task At_twice_the_size_nothing_is_lost_and_no_page_scrolls_sideways(string path)
    {
        var site = await demo.SiteAsync();
        // 200 % of a 1280 px window is a window of 640 px to the page (WCAG 2.2, 1.4.4 and 1.4.10); 320 px is 400 %.
        foreach (var width in new[] { 640, 320 })
        {
            await using var person = await chromium.PersonAsync(site, width);
            await person.OpenAsync(path);
            Assert.False(await person.ScrollsSidewaysAsync(), $"{path} scrolls sideways at {width} px");
            var cut = await person.Page.EvaluateAsync<string[]>(
                """
                [...document.querySelectorAll('main *, header *')].filter(e => e.offsetParent !== null && e.children.length === 0 && e.textContent.trim()
                  && !e.closest('.unseen, .scroll, svg, .away, .name, select, option') && e.scrollWidth > e.clientWidth + 1 && getComputedStyle(e).overflow !== 'visible')
                  .map(e => e.tagName + ': ' + e.textContent.trim().slice(0, 60))
                """
            );
            Assert.Empty(cut);
        }
    }

    [Fact]
    public async Task One_tap_turns_every_page_red_on_black_without_blue_and_it_stays_so()
    {
        var site = await demo.SiteAsync();
        await using var person = await chromium.PersonAsync(site, 390);
        await person.OpenAsync("/jobs/1/search");
        await person.PressAsync("Red on black, for the UV lamp");
        Assert.EndsWith("/jobs/1/search", (await person.AddressAsync()), StringComparison.Ordinal);
        foreach (
            var path in new[] { "/jobs/1/search", "/jobs/1", "/jobs/1/entries/new/leak-check", "/jobs/1/weigh-in", "/" }
        )
        {
            await person.OpenAsync(path);
            Assert.Empty(await person.RulesBrokenAsync());
            await person.PictureAsync($"night{path.Replace('/', '-').Split('?')[0]}-390");
            var (blue, green) = await person.BrightestAsync(await person.Page.ScreenshotAsync());
            Assert.True(blue <= 40, $"on {path} some pixel shines blue: {blue} of 255");
            Assert.True(green <= 90, $"on {path} some pixel shines green: {green} of 255");
        }
        await person.PressAsync("Red on black, for the UV lamp");
        Assert.Equal(
            "rgb(255, 255, 255)",
            await person.Page.EvaluateAsync<string>("getComputedStyle(document.body).backgroundColor")
        );
    }

    [Fact]
    public async Task The_units_of_this_machine_are_one_choice_of_command_line_and_site_and_each_device_may_have_its_own()
    {
        await using var site = await RunningSite.StartAsync();
        RememberedUnits.Write(site.DataFolder, UnitSystem.Us);
        await using var person = await chromium.PersonAsync(site, 390);
        await person.OpenAsync("/");
        Assert.Equal("true", await person.Page.Locator("button[value=us]").GetAttributeAsync("aria-pressed"));
        await person.PressAsync("bar °C");
        Assert.Equal("true", await person.Page.Locator("button[value=metric]").GetAttributeAsync("aria-pressed"));
        Assert.Equal(UnitSystem.Metric, RememberedUnits.Read(site.DataFolder));
        RememberedUnits.Write(site.DataFolder, UnitSystem.Us);
        await person.ReloadAsync();
        Assert.Equal("true", await person.Page.Locator("button[value=metric]").GetAttributeAsync("aria-pressed"));
    }

    [Fact]
    public async Task With_reduced_motion_nothing_moves()
    {
        var site = await demo.SiteAsync();
        await using var person = await chromium.PersonAsync(site, 390);
        await person.Page.EmulateMediaAsync(new() { ReducedMotion = ReducedMotion.Reduce });
        await person.OpenAsync("/jobs/1");
        Assert.Equal(
            "auto",
            await person.Page.EvaluateAsync<string>("getComputedStyle(document.documentElement).scrollBehavior")
        );
        Assert.Equal(0, await person.Page.EvaluateAsync<int>("document.getAnimations().length"));
    }
}
