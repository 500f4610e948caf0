using System.Net;
using Tightcold.Jobs.Entries;
using Tightcold.Pages.Words;
using Tightcold.Web.Tests.Bench;

namespace Tightcold.Web.Tests;

/// <summary>A job on the site from the empty start page to the printed card, as a person does it.</summary>
public sealed class WholeWalkTests(Chromium chromium)
{
    [Theory]
    [InlineData(390, true)]
    [InlineData(1280, true)]
    [InlineData(390, false)]
    public async Task A_job_goes_from_the_first_car_to_the_card_with_an_entry_refused_corrected_and_struck(
        int width,
        bool scripts
    )
    {
        await using var site = await RunningSite.StartAsync(InventedFindings.Until(Step.StandingPressure));
        await using var person = await chromium.PersonAsync(site, width, scripts);
        var tag = $"{width}{(scripts ? "" : "-plain")}";

        await person.OpenAsync("/");
        await person.SeesAsync("Begin with the car in front of you");
        await person.PictureAsync($"start-empty-{tag}");

        await person.AddCarAsync(
            "Grey estate",
            "R-134a",
            ("label-charge", "550 g"),
            ("compressor", "fixed, cycling"),
            ("device", "expansion valve")
        );
        await person.OpenJobAsync("It blows warm since Tuesday");
        Assert.EndsWith("/jobs/1", (await person.AddressAsync()), StringComparison.Ordinal);

        await person.WriteDownAsync(
            EntryKinds.Weather,
            ("ambient-temperature", "32 °C"),
            ("relative-humidity", "21 %"),
            ("altitude", "1600 m")
        );
        await person.SeesAsync("Written down at 12:00: weather");

        // Refused: one sentence beside the field, everything typed is kept.
        await person.OpenFormAsync(EntryKinds.StandingReading);
        await person.FillAsync("low-side", "forty psig");
        await person.FillAsync("high-side", "41 psig");
        await person.FillAsync("ambient-temperature", "300 °C");
        await person.PressAsync("Write it down");
        Assert.Contains("“forty” is not taken", await person.ProblemOfAsync("low-side"), StringComparison.Ordinal);
        Assert.Contains(
            "“300 °C” is not taken",
            await person.ProblemOfAsync("ambient-temperature"),
            StringComparison.Ordinal
        );
        Assert.Equal("41", await person.StandsInAsync("high-side"));
        Assert.Equal("forty", await person.StandsInAsync("low-side"));
        await person.PictureAsync($"entry-refused-{tag}");

        await person.FillAsync("low-side", "40 psig");
        await person.FillAsync("ambient-temperature", "32 °C");
        await person.PressAsync("Write it down");
        await person.SeesAsync("Written down");
        Assert.Equal(2, await person.JournalCountAsync());
        await person.PictureAsync($"job-{tag}");

        // Corrected: the old one stays, struck, with the reason.
        await person.FollowAsync("Not right?");
        await person.FollowAsync("Correct it");
        Assert.Equal("40", await person.StandsInAsync("low-side"));
        await person.TypeAsync("low-side", "42");
        await person.Page.Locator("#reason").FillAsync("read the wrong scale");
        await person.PressAsync("Write the correction");
        Assert.Equal(3, await person.JournalCountAsync());
        await person.OpenJournalAsync();
        Assert.Contains(
            "read the wrong scale",
            await person.Page.Locator("ol.journal .struck").First.InnerTextAsync(),
            StringComparison.Ordinal
        );

        // Struck: a note that was for another car.
        await person.WriteDownAsync(EntryKinds.Note, ("text", "Belt squeaks"));
        await person.FollowAsync("Not right?");
        await person.FollowAsync("Strike it out");
        await person.Page.Locator("#reason").FillAsync("belongs to another car");
        await person.PressAsync("Strike it out");
        await person.OpenJournalAsync();
        await person.SeesAsync("belongs to another car");
        Assert.Equal(2, await person.Page.Locator("ol.journal .struck").CountAsync());

        foreach (var step in StepWords.All)
        {
            var shown = await person.StepAsync(StepWords.Title(step));
            Assert.True(await shown.Locator(".verdict").First.IsVisibleAsync(), $"{step} does not open");
        }

        await person.FollowAsync("Now");
        await person.FollowAsync("Job card to print");
        var card = await person.SeesAsync();
        Assert.Contains("Grey estate", card, StringComparison.Ordinal);
        Assert.Contains("It blows warm since Tuesday", card, StringComparison.Ordinal);
        Assert.Contains("Proven tight: not proven", card, StringComparison.Ordinal);
        await person.PictureAsync($"card-screen-{tag}");
        Assert.InRange(await person.PrintAsync($"card-early-{tag}", "A4"), 1, 2);
        Assert.Empty(site.Failures);
    }

    [Fact]
    public async Task Sending_the_same_form_twice_writes_one_entry_and_another_reading_in_the_same_form_writes_a_second()
    {
        await using var site = await RunningSite.StartAsync();
        var car = (
            await site.Desk.AddCarAsync(
                new Dictionary<string, string> { ["label"] = "Grey estate", ["refrigerant"] = "R-134a" },
                TestContext.Current.CancellationToken
            )
        ).Value!;
        await site.Desk.OpenJobAsync(car.Id, "Warm", TestContext.Current.CancellationToken);
        using var client = site.Client();
        var form = await client.HiddenOfAsync("/jobs/1/entries/new/standing-reading");
        form["f.low-side"] = "40";
        form["u.low-side"] = "psig";
        form["f.ambient-temperature"] = "32 °C";

        async Task<int> EntriesAfterSendingAsync()
        {
            Assert.Equal(
                HttpStatusCode.Found,
                (await client.SendAsync("/jobs/1/entries/new/standing-reading", form)).StatusCode
            );
            return (await site.Desk.RecordAsync(1, TestContext.Current.CancellationToken))!.Journal.All.Length;
        }

        Assert.Equal(1, await EntriesAfterSendingAsync());
        site.Clock.Advance(TimeSpan.FromSeconds(3));
        Assert.Equal(1, await EntriesAfterSendingAsync());
        // The form reached again by the back button, with another reading in it.
        form["f.low-side"] = "44";
        Assert.Equal(2, await EntriesAfterSendingAsync());
    }

    [Fact]
    public async Task A_correction_keeps_the_moment_to_the_second_unless_another_is_typed()
    {
        await using var site = await RunningSite.StartAsync();
        await using var person = await chromium.PersonAsync(site, 390);
        await person.AddCarAsync("Grey estate", "R-134a");
        await person.OpenJobAsync("Warm");
        site.Clock.Advance(TimeSpan.FromSeconds(41));
        await person.WriteDownAsync(EntryKinds.Note, ("text", "first"));
        site.Clock.Advance(TimeSpan.FromMinutes(5));
        foreach (
            var (text, typed, expected) in new[]
            {
                ("second", null, RunningSite.Noon.AddSeconds(41)),
                ("third", "2026-07-14T11:30", RunningSite.Noon.AddMinutes(-30)),
            }
        )
        {
            await person.FollowAsync("Not right?");
            await person.FollowAsync("Correct it");
            await person.TypeAsync("text", text);
            await person.Page.Locator("#reason").FillAsync("mistyped");
            if (typed is not null)
                await person.Page.Locator("#when").FillAsync(typed);
            await person.PressAsync("Write the correction");
            var standing = Assert.Single(
                (await site.Desk.RecordAsync(1, TestContext.Current.CancellationToken))!.Journal.Standing
            );
            Assert.Equal(text, standing.Fields.Text("text"));
            Assert.Equal(expected, standing.ObservedAt);
        }
    }

    [Fact]
    public async Task A_form_that_was_open_while_the_program_restarted_is_still_taken()
    {
        await using var site = await RunningSite.StartAsync();
        await using var person = await chromium.PersonAsync(site, 390);
        await person.AddCarAsync("Grey estate", "R-134a");
        await person.OpenJobAsync("Warm");
        await person.OpenFormAsync(EntryKinds.Note);
        await person.FillAsync("text", "typed before the restart");
        await site.RestartAsync();
        await person.PressAsync("Write it down");
        await person.OpenJournalAsync();
        Assert.Contains(
            "typed before the restart",
            await person.Journal.First.InnerTextAsync(),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task The_last_value_is_a_ghost_in_its_unit_and_below_zero_needs_no_minus_key()
    {
        await using var site = await RunningSite.StartAsync();
        await using var person = await chromium.PersonAsync(site, 390);
        await person.AddCarAsync("Grey estate", "R-134a");
        await person.OpenJobAsync("Warm");
        await person.WriteDownAsync(
            EntryKinds.VentReading,
            ("vent-temperature", "41 °F"),
            ("ambient-temperature", "88 °F"),
            ("air-source", "recirculated")
        );
        await person.OpenFormAsync(EntryKinds.VentReading);
        Assert.Equal("41", await person.GhostOfAsync("vent-temperature"));
        Assert.Equal("°F", await person.Page.Locator("select[name='u.vent-temperature']").InputValueAsync());
        await person.TypeAsync("vent-temperature", "3");
        await person.Page.Locator("select[name='u.vent-temperature']").SelectOptionAsync("-°C");
        await person.FillAsync("ambient-temperature", "31 °C");
        await person.ChooseAsync("air-source", "fresh");
        await person.PressAsync("Write it down");
        await person.SeesAsync("Centre vent -3 °C: usual is 0.0 to 45.0 °C.");
        await person.PressAsync("Yes, it is right");
        await person.SeesAsync("centre vent -3.0 °C");
    }

    [Fact]
    public async Task The_unit_switch_changes_every_number_and_is_remembered()
    {
        await using var site = await RunningSite.StartAsync();
        await using var person = await chromium.PersonAsync(site, 390, scripts: false);
        await person.AddCarAsync("Grey estate", "R-134a");
        await person.OpenJobAsync("Warm");
        await person.WriteDownAsync(
            EntryKinds.StandingReading,
            ("low-side", "4 bar gauge"),
            ("ambient-temperature", "32 °C")
        );
        await person.OpenAsync("/jobs/1");
        await person.PressAsync("psi °F");
        Assert.EndsWith("/jobs/1", (await person.AddressAsync()).Split('?')[0], StringComparison.Ordinal);
        await person.OpenJournalAsync();
        // 4 bar is 58 psi and 32 °C is 89.6 °F: by the definitions of the units.
        Assert.Contains("58 psig", await person.Journal.First.InnerTextAsync(), StringComparison.Ordinal);
        Assert.Contains("89.6 °F", await person.Journal.First.InnerTextAsync(), StringComparison.Ordinal);
        await person.OpenJournalAsync();
        Assert.Contains("58 psig", await person.Journal.First.InnerTextAsync(), StringComparison.Ordinal);
    }
}
