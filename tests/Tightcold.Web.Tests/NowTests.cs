using Tightcold.Jobs.Entries;
using Tightcold.Web.Tests.Bench;

namespace Tightcold.Web.Tests;

/// <summary>The page of now fits one screen; forms keep what is typed over a switch of units and move a mark on the
/// expected range; the kit decides what comes first.</summary>
public sealed class NowTests(Chromium chromium)
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData(1)]
    [InlineData(10)]
    [InlineData(48)]
    [InlineData(95)]
    [InlineData(215)]
    [InlineData(250)]
    [InlineData(276)]
    [InlineData(330)]
    public async Task What_is_known_the_one_thing_to_do_and_what_runs_stand_on_one_screen_above_the_bar(int minute)
    {
        await using var site = await RunningSite.WithDemoUntilAsync(TimeSpan.FromMinutes(minute));
        await using var person = await chromium.PersonAsync(site, 390);
        await person.OpenAsync("/jobs/1");
        // What is due calls once the page has heard of it, and takes its room.
        await person.UntilAsync(
            """
            [...document.querySelectorAll('[data-due]')].every(line => / left$/.test(line.textContent))
              || !!document.querySelector('.alarm p')
            """
        );
        var below = await person.Page.EvaluateAsync<double>(
            """
            () => {
              const ends = [...document.querySelectorAll('.now-line .verdict, .now-line .caution, .now-line .to-do, .now-line .clocks')].map(e => e.getBoundingClientRect().bottom);
              return Math.max(...ends) - document.querySelector('.bar').getBoundingClientRect().top;
            }
            """
        );
        await person.PictureAsync($"now-{minute}-390");
        Assert.True(below <= 1, $"{minute} min: it ends {below} px below the bar");
        Assert.Empty(await person.RulesBrokenAsync());
        Assert.Empty(await person.TooSmallAsync());
    }

    [Fact]
    public async Task A_step_opens_on_its_own_page_and_the_way_back_leads_to_its_line()
    {
        await using var site = await RunningSite.WithDemoUntilAsync(TimeSpan.FromMinutes(48));
        await using var person = await chromium.PersonAsync(site, 390, scripts: false);
        await person.OpenAsync("/jobs/1");
        await person.NextPageAsync(() => person.Page.Locator("#prove-cold a").TapAsync());
        Assert.EndsWith("/jobs/1/steps/prove-cold", (await person.AddressAsync()), StringComparison.Ordinal);
        await person.FollowAsync("Now", exact: true);
        Assert.EndsWith("/jobs/1#prove-cold", (await person.AddressAsync()), StringComparison.Ordinal);
        // The page glides there.
        await person.UntilAsync(
            "(top => top >= 0 && top <= 760)(document.querySelector('#prove-cold').getBoundingClientRect().top)"
        );
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task A_switch_of_units_keeps_what_is_typed_and_leaves_no_unit_of_the_other_system(bool scripts)
    {
        await using var site = await RunningSite.WithDemoUntilAsync(TimeSpan.FromMinutes(60));
        await using var person = await chromium.PersonAsync(site, 390, scripts);
        await person.OpenAsync("/jobs/1/entries/new/running-reading");
        // 3.4 bar are 49.31 psi, 9 °C are 48.2 °F: by the definitions of the units.
        await person.TypeAsync("low-side", "3.4");
        await person.TypeAsync("vent-temperature", "9");
        await person.PressAsync("psi °F");
        Assert.Equal("49.31", await person.StandsInAsync("low-side"));
        Assert.Equal("48.2", await person.StandsInAsync("vent-temperature"));
        foreach (var field in new[] { "low-side", "high-side" })
            Assert.Equal("psig", await person.Page.Locator($"select[name='u.{field}']").InputValueAsync());
        foreach (var field in new[] { "vent-temperature", "suction-line-temperature", "ambient-temperature" })
            Assert.Equal("°F", await person.Page.Locator($"select[name='u.{field}']").InputValueAsync());
        await person.PressAsync("bar °C");
        Assert.Equal("3.4", await person.StandsInAsync("low-side"));
        Assert.Equal("9", await person.StandsInAsync("vent-temperature"));
        await person.PressAsync("Write it down");
        var written = (await site.Desk.RecordAsync(1, Cancellation))!.Journal.OfKind(EntryKinds.RunningReading);
        Assert.Contains(written, reading =>
            Math.Abs(reading.Fields.Get<Tightcold.Quantities.GaugePressure>("low-side")!.Value.Si - 3.4e5) < 1
        );
    }

    [Fact]
    public async Task A_mark_moves_on_the_expected_range_while_somebody_types_in_any_unit()
    {
        await using var site = await RunningSite.WithDemoUntilAsync(TimeSpan.FromMinutes(20));
        await using var person = await chromium.PersonAsync(site, 390);
        await person.OpenAsync("/jobs/1/entries/new/running-reading");
        var live = person.Page.Locator(".field.low-side svg.expect .live").First;
        Assert.Equal("hidden", await live.GetAttributeAsync("visibility"));
        await person.TypeAsync("low-side", "1.0");
        Assert.Equal("visible", await live.GetAttributeAsync("visibility"));
        var left = await live.GetAttributeAsync("transform");
        await person.TypeAsync("low-side", "2.6");
        var right = await live.GetAttributeAsync("transform");
        Assert.NotEqual(left, right);
        // 2.6 bar are 37.71 psi: the mark stays where it was.
        await person.Page.Locator("select[name='u.low-side']").SelectOptionAsync("psig");
        await person.TypeAsync("low-side", "37.71");
        double At(string? text) =>
            double.Parse(text!.Split('(', ' ')[1], System.Globalization.CultureInfo.InvariantCulture);
        Assert.Equal(At(right), At(await live.GetAttributeAsync("transform")), 1.0);
    }

    [Fact]
    public async Task A_dials_vacuum_has_a_field_of_its_own_that_comes_first_and_needs_no_sign()
    {
        await using var site = await RunningSite.WithDemoUntilAsync(TimeSpan.FromMinutes(190));
        Assert.True(
            (
                await site.Desk.UpdateKitAsync(
                    new Dictionary<string, string> { ["vacuum-gauge"] = "dial" },
                    cancellation: Cancellation
                )
            ).Taken
        );
        site.Clock.Advance(TimeSpan.FromMinutes(1));
        await using var person = await chromium.PersonAsync(site, 390);
        await person.OpenAsync("/jobs/1/entries/new/vacuum-reading");
        Assert.True(
            await person.Page.Locator("input[name='f.dial']").EvaluateAsync<bool>("e => e === document.activeElement")
        );
        Assert.False(await person.Page.Locator("input[name='f.absolute-pressure']").IsVisibleAsync());
        await person.TypeAsync("dial", "0.9");
        await person.ChooseAsync("pump-valve", "open");
        await person.PressAsync("Write it down");
        await WrittenAsync(-0.9e5);
        await person.OpenAsync("/jobs/1/entries/new/vacuum-reading");
        await person.TypeAsync("dial", "28");
        await person.Page.Locator("select[name='u.dial']").SelectOptionAsync("inHg vacuum");
        await person.PressAsync("Write it down");
        // 28 inHg of 3386.39 Pa each.
        await WrittenAsync(-28 * 3386.39);

        // Both have one moment: the clock stands.
        async Task WrittenAsync(double pascals) =>
            Assert.Contains(
                (await site.Desk.RecordAsync(1, Cancellation))!.Journal.OfKind(EntryKinds.VacuumReading),
                reading =>
                    reading.Fields.Get<Tightcold.Quantities.GaugePressure>("dial") is { } dial
                    && Math.Abs(dial.Si - pascals) < 2
            );
    }

    [Fact]
    public async Task Many_spots_at_once_are_one_form_nothing_except_what_is_marked()
    {
        await using var site = await RunningSite.WithDemoUntilAsync(TimeSpan.FromMinutes(140));
        await using var person = await chromium.PersonAsync(site, 390);
        await person.OpenAsync("/jobs/1/search");
        await person.FollowAsync("Many at once");
        Assert.True(await person.Page.Locator("input[name='f.test'][value='nitrogen and soap']").IsCheckedAsync());
        await person.Page.Locator("input[name='f.not-reached'][value='evaporator']").CheckAsync();
        await person.Page.Locator("input[name='f.showed'][value='condenser']").CheckAsync();
        Assert.Empty(await person.RulesBrokenAsync());
        Assert.Empty(await person.TooSmallAsync());
        await person.PictureAsync("search-all-390");
        await person.PressAsync("Nothing, but where marked");
        var written = (await site.Desk.RecordAsync(1, Cancellation))!.Journal.Last(EntryKinds.LeakSearch)!;
        Assert.Equal("evaporator", written.Fields.Text("not-reached"));
        Assert.Equal("condenser", written.Fields.Text("showed"));
    }
}
