using System.Globalization;
using System.Net;
using Tightcold.Jobs.Entries;
using Tightcold.Picture;
using Tightcold.Picture.Leaks;
using Tightcold.Web.Tests.Bench;

namespace Tightcold.Web.Tests;

/// <summary>The leak search on the site: the map to tap on, the spots of a car, what other years tell, and what each
/// way forward may cost.</summary>
public sealed class SearchTests(Chromium chromium)
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_tap_on_a_spot_of_the_map_and_one_on_the_outcome_write_a_check_down()
    {
        await using var site = await RunningSite.WithDemoUntilAsync(TimeSpan.FromMinutes(48));
        await using var person = await chromium.PersonAsync(site, 390);
        await person.OpenAsync("/jobs/1/search");
        var before = (await site.Desk.RecordAsync(1, Cancellation))!.Journal.All.Length;
        // The map itself is tapped, at the place of the spot.
        var spot = person.Page.Locator("svg.circuit a[href*='spot=condenser&']");
        var box = (await spot.BoundingBoxAsync())!;
        Assert.True(
            box.Width >= 55 && box.Height >= 55,
            $"a fingertip in a glove needs 56 px, this is {box.Width} x {box.Height}"
        );
        await spot.TapAsync();
        Assert.Equal("condenser", await person.Page.Locator("[data-chosen]").InnerTextAsync());
        Assert.True(await person.Page.Locator("input[name='f.spot'][value='condenser']").IsCheckedAsync());
        Assert.True(
            await person.Page.Locator("input[name='f.test'][value='electronic detector']").IsCheckedAsync(),
            "the test of the last check is offered"
        );
        Assert.Contains("still air", await person.SeesAsync(), StringComparison.Ordinal);
        await person.PressAsync("Nothing");
        var after = (await site.Desk.RecordAsync(1, Cancellation))!.Journal;
        Assert.Equal(before + 1, after.All.Length);
        Assert.Equal("still", after.All[^1].Fields.Text("wind"));
        Assert.Contains(
            "clear",
            await person
                .Page.Locator(".rows label")
                .Filter(new() { Has = person.Page.Locator("input[value='condenser']") })
                .InnerTextAsync(),
            StringComparison.Ordinal
        );
        // The next spot in the order of the refrigerant is chosen by itself: one more tap writes it down.
        Assert.Equal("liquid line joint at condenser", await person.Page.Locator("[data-chosen]").InnerTextAsync());
        Assert.Empty(await person.RulesBrokenAsync());
        Assert.Empty(await person.TooSmallAsync());
        Assert.False(await person.ScrollsSidewaysAsync());
        await person.PictureAsync("map-390");
    }

    [Fact]
    public async Task The_map_tells_every_standing_by_its_own_shape_and_word_and_the_list_says_the_same()
    {
        await using var site = await RunningSite.WithDemoUntilAsync(TimeSpan.FromMinutes(132));
        var record = (await site.Desk.RecordAsync(1, Cancellation))!;
        var spots = SpotView.Of(new JobPicture(record).Leaks).ToDictionary(spot => spot.Name, spot => spot.Standing);
        Assert.Equal(SpotStanding.Leaking, spots["low-side service valve"]);
        Assert.Equal(SpotStanding.Mended, spots["liquid line joint at condenser"]);
        using var client = site.Client();
        var html = await client.GetStringAsync(new Uri("/jobs/1/search", UriKind.Relative), Cancellation);
        foreach (var words in new[] { "leaking", "mended and clear", "not checked" })
            Assert.Contains(words, html, StringComparison.Ordinal);
        Assert.Contains("with the odds that each spot leaks", html, StringComparison.Ordinal);
        // Black and white: no two standings are drawn alike.
        var drawn = Enum.GetValues<SpotStanding>().Select(App.Diagrams.CircuitMark.Alone).ToArray();
        Assert.Equal(drawn.Length, drawn.Distinct().Count());
    }

    [Fact]
    public async Task A_spot_is_added_taken_out_and_brought_back_by_undo_and_the_search_follows()
    {
        await using var site = await RunningSite.WithDemoAsync();
        await using var person = await chromium.PersonAsync(site, 390);
        var car = (await site.Desk.RecordAsync(1, Cancellation))!.Car;
        await person.OpenAsync($"/cars/{car.Id}");
        await person.FollowAsync("Spots of its circuit");
        await person.Page.Locator("#add").FillAsync("rear evaporator joint");
        await person.PressAsync("Add it");
        await person.SeesAsync("Added: rear evaporator joint");
        Assert.Contains(
            "rear evaporator joint",
            Jobs.Circuit.CircuitMap.Spots((await site.Desk.CarAsync(car.Id, Cancellation))!)
        );
        await person.PressAsync("Undo");
        Assert.DoesNotContain(
            "rear evaporator joint",
            Jobs.Circuit.CircuitMap.Spots((await site.Desk.CarAsync(car.Id, Cancellation))!)
        );
        await person.PressAsync("Take out: pressure switch");
        await person.SeesAsync("Taken out: pressure switch");
        Assert.DoesNotContain(
            "pressure switch",
            Jobs.Circuit.CircuitMap.Spots((await site.Desk.CarAsync(car.Id, Cancellation))!)
        );
        // What was checked there before stays part of the job, also in another data folder.
        await using (var other = await RunningSite.StartAsync())
            Assert.True(
                (
                    await other.Desk.ImportAsync(
                        App.Desk.JobDesk.Export((await site.Desk.RecordAsync(1, Cancellation))!),
                        Cancellation
                    )
                ).Taken
            );
        await person.PictureAsync("circuit-390");
        Assert.Empty(await person.RulesBrokenAsync());
        Assert.Empty(await person.TooSmallAsync());
        await person.PressAsync("Put back: pressure switch");
        Assert.Equal(
            Jobs.Circuit.CircuitMap.Spots(car),
            Jobs.Circuit.CircuitMap.Spots((await site.Desk.CarAsync(car.Id, Cancellation))!)
        );
        // A comma would make two spots of one; nothing is changed.
        await person.Page.Locator("#add").FillAsync("one, two");
        await person.PressAsync("Add it");
        await person.SeesAsync("without a comma");
        Assert.Equal(
            Jobs.Circuit.CircuitMap.Spots(car),
            Jobs.Circuit.CircuitMap.Spots((await site.Desk.CarAsync(car.Id, Cancellation))!)
        );
    }

    [Fact]
    public async Task What_an_earlier_job_left_in_the_car_counts_in_the_leak_finding_of_the_next_years_job()
    {
        await using var site = await RunningSite.WithDemoAsync();
        var car = (await site.Desk.RecordAsync(1, Cancellation))!.Car;
        site.Clock.Advance(TimeSpan.FromDays(400));
        Assert.True((await site.Desk.OpenJobAsync(car.Id, "Weaker than last year", Cancellation)).Taken);
        var reading = new Dictionary<string, string>
        {
            ["low-side"] = "3.0 bar",
            ["high-side"] = "3.0 bar",
            ["ambient-temperature"] = "24 °C",
        };
        Assert.True(
            (
                await site.Desk.AddEntryAsync(
                    2,
                    EntryKinds.StandingReading,
                    reading,
                    null,
                    "",
                    cancellation: Cancellation
                )
            ).Taken
        );
        using var client = RunningSite.Client(site.Address, site.AnotherOwnerKey());
        var html = WebUtility.HtmlDecode(
            await client.GetStringAsync(new Uri("/jobs/2/steps/leak-search", UriKind.Relative), Cancellation)
        );
        Assert.Contains("Job 1 left", html, StringComparison.Ordinal);
        Assert.Contains("13 months ago", html, StringComparison.Ordinal);
        // The car's page draws what was left and what was found.
        var history = await client.GetStringAsync(new Uri($"/cars/{car.Id}", UriKind.Relative), Cancellation);
        Assert.Contains("Charge over the years", history, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_ways_forward_reckon_with_the_persons_own_prices_and_say_so_while_they_are_not_known()
    {
        await using var site = await RunningSite.WithDemoUntilAsync(TimeSpan.FromMinutes(48));
        await using var person = await chromium.PersonAsync(site, 390);
        await person.OpenAsync("/jobs/1/ways");
        await person.SeesAsync("Not your prices yet");
        await person.SeesAsync("check local rules");
        foreach (
            var (field, value) in new[]
            {
                ("currency", "crowns"),
                ("price-refrigerant", "34"),
                ("price-part", "10"),
                ("price-opening", "40"),
                ("price-workshop", "9000"),
            }
        )
            await person.Page.Locator($"#{field}").FillAsync(value);
        await person.Page.Locator("select[name=size]").SelectOptionAsync("can of 12 oz");
        await person.PressAsync("Reckon with these");
        await person.Page.GetByText("about 9000").WaitForAsync();
        var kit = await site.Desk.KitAsync(Cancellation);
        // 34 for 12 oz, which are 0.3402 kg, is 99.94 a kilogram.
        Assert.Equal(99.94, kit.Fields.Number("price-refrigerant")!.Value, 2);
        Assert.DoesNotContain("Not your prices yet", await person.SeesAsync(), StringComparison.Ordinal);
        Assert.Empty(await person.RulesBrokenAsync());
        Assert.Empty(await person.TooSmallAsync());
        Assert.False(await person.ScrollsSidewaysAsync());
        await person.PictureAsync("ways-390");
        await person.Page.Locator("#price-part").FillAsync("cheap");
        await person.PressAsync("Reckon with these");
        await person.SeesAsync("“cheap” is not taken");
        Assert.Equal(10, (await site.Desk.KitAsync(Cancellation)).Fields.Number("price-part")!.Value, 6);
    }

    [Fact]
    public async Task A_gauges_log_is_shown_as_understood_before_it_is_written_and_errors_name_row_and_column()
    {
        await using var site = await RunningSite.WithDemoUntilAsync(TimeSpan.FromMinutes(232));
        await using var person = await chromium.PersonAsync(site, 390);
        var folder = Directory.CreateTempSubdirectory("tightcold-log-").FullName;
        var wrong = Path.Combine(folder, "wrong.csv");
        await File.WriteAllTextAsync(
            wrong,
            "elapsed s;vacuum micron;shell temp C\n0;800;28.5\n60;x800;28.5\n",
            Cancellation
        );
        var good = Path.Combine(folder, "good.csv");
        await File.WriteAllLinesAsync(
            good,
            Enumerable
                .Range(0, 200)
                .Select(i => string.Create(CultureInfo.InvariantCulture, $"{i * 10};{800 + i};28.5"))
                .Prepend("elapsed s;vacuum micron;shell temp C"),
            Cancellation
        );
        await person.OpenAsync("/jobs/1/gauge-log");
        await person.Page.Locator("#file").SetInputFilesAsync(wrong);
        await person.PressAsync("Look into it");
        Assert.Equal("vacuum micron", await person.Page.Locator("#pressure").InputValueAsync());
        Assert.Equal("micron", await person.Page.Locator("#pressure-unit").InputValueAsync());
        Assert.Equal("s", await person.Page.Locator("#time-unit").InputValueAsync());
        await person.Page.Locator("#what").SelectOptionAsync("hold");
        await person.PressAsync("Show what that means");
        await person.SeesAsync("vacuum micron: “x800” is not taken: row 3");
        await person.FollowAsync("Another file");
        await person.Page.Locator("#file").SetInputFilesAsync(good);
        await person.PressAsync("Look into it");
        await person.Page.Locator("#what").SelectOptionAsync("hold");
        var begun = site
            .Clock.GetUtcNow()
            .ToOffset(TimeSpan.FromHours(2))
            .AddMinutes(-40)
            .ToString("yyyy-MM-dd'T'HH:mm", CultureInfo.InvariantCulture);
        await person.Page.Locator("#start").FillAsync(begun);
        var before = (await site.Desk.RecordAsync(1, Cancellation))!.Journal.All.Length;
        await person.PressAsync("Show what that means");
        await person.SeesAsync("Understood: 60 readings");
        Assert.Equal(before, (await site.Desk.RecordAsync(1, Cancellation))!.Journal.All.Length);
        Assert.Empty(await person.RulesBrokenAsync());
        Assert.Empty(await person.TooSmallAsync());
        Assert.False(await person.ScrollsSidewaysAsync());
        await person.PictureAsync("gauge-log-390");
        await person.PressAsync("Write 60 readings down");
        var written = (await site.Desk.RecordAsync(1, Cancellation))!
            .Journal.OfKind(EntryKinds.VacuumReading)
            .Where(entry => entry.Fields.Text("pump-valve") == "shut")
            .ToArray();
        Assert.Equal(60, written.Length);
        // 800 micron is 106.7 Pa by the definition of the micron (1 mmHg = 133.322 Pa).
        Assert.Equal(106.66, written[0].Fields.Si("absolute-pressure")!.Value, 0.01);
        await person.BackAsync();
        await person.PressAsync("Write 60 readings down");
        Assert.Equal(before + 60, (await site.Desk.RecordAsync(1, Cancellation))!.Journal.All.Length);
        Assert.Empty(site.Failures);
        Directory.Delete(folder, recursive: true);
    }
}
