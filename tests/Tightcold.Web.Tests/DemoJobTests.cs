using Tightcold.App.Demo;
using Tightcold.Findings.Now;
using Tightcold.Jobs.Entries;
using Tightcold.Pages.Words;
using Tightcold.Picture;
using Tightcold.Quantities;
using Tightcold.Web.Tests.Bench;

namespace Tightcold.Web.Tests;

/// <summary>The demo's job with its real findings, as it is seen on a phone and on a laptop.</summary>
public sealed class DemoJobTests(Chromium chromium)
{
    [Theory]
    [InlineData(10, "standing", null)]
    [InlineData(95, "mend", "Circuit open at liquid line joint at condenser")]
    [InlineData(215, "pump", "Pumping down")]
    [InlineData(250, "hold", "Holding, valve to the pump shut")]
    [InlineData(276, "charge", "Valve open on Can A")]
    public async Task Coming_back_during_the_day_a_person_sees_the_step_that_matters_now_and_what_is_running(
        int minute,
        string name,
        string? clock
    )
    {
        await using var site = await RunningSite.WithDemoUntilAsync(TimeSpan.FromMinutes(minute));
        var record = (await site.Desk.RecordAsync(1, TestContext.Current.CancellationToken))!;
        var picture = new JobPicture(record);
        var now = StepWords.Title(picture.Now.Step);
        await using var person = await chromium.PersonAsync(site, 390);
        await person.OpenAsync("/");
        // Its words, without the numbers in the person's units.
        await person.SeesAsync(NowWords.Of(picture).Waits.Parts.OfType<PhrasePart.Words>().First().Text.Trim());
        if (clock is not null)
            await person.SeesAsync(clock);
        await person.FollowAsync($"Grey estate with the dented hatch: {DemoScenario.Complaint}", exact: false);
        Assert.Equal(now, await person.Page.Locator(".walk > li.now strong").First.InnerTextAsync());
        if (clock is not null)
            await person.SeesAsync(clock);
        Assert.Empty(await person.RulesBrokenAsync());
        Assert.Empty(await person.TooSmallAsync());
        await person.PictureAsync($"day-{name}-390");
    }

    [Theory]
    [InlineData(390)]
    [InlineData(1280)]
    public async Task Every_step_of_the_demo_opens_one_entry_is_added_and_corrected_and_the_card_is_printed_on_two_pages_at_most(
        int width
    )
    {
        await using var site = await RunningSite.WithDemoAsync();
        await using var person = await chromium.PersonAsync(site, width);
        await person.OpenAsync("/");
        await person.SeesAsync(DemoScenario.Complaint);
        await person.OpenAsync("/jobs/1");
        foreach (var step in StepWords.All)
        {
            var shown = await person.StepAsync(StepWords.Title(step));
            Assert.True(await shown.Locator(".verdict").First.IsVisibleAsync(), $"{step} shows no verdict");
            Assert.Empty(await person.RulesBrokenAsync());
            Assert.Empty(await person.TooSmallAsync());
            Assert.False(await person.ScrollsSidewaysAsync());
            await person.PictureAsync($"demo-step-{StepWords.Slug(step)}-{width}");
        }

        var before = await person.JournalCountAsync();
        await person.WriteDownAsync(
            EntryKinds.VentReading,
            ("vent-temperature", "8.4 °C"),
            ("ambient-temperature", "31 °C"),
            ("relative-humidity", "45 %"),
            ("air-source", "recirculated")
        );
        Assert.Equal(before + 1, await person.JournalCountAsync());
        await person.FollowAsync("Not right?");
        await person.FollowAsync("Correct it");
        await person.TypeAsync("vent-temperature", "7.4");
        await person.Page.Locator("#reason").FillAsync("read through the wrong end of the vent");
        await person.PressAsync("Write the correction");
        Assert.Equal(before + 2, await person.JournalCountAsync());
        await person.OpenJournalAsync();
        await person.SeesAsync("read through the wrong end of the vent");

        await person.OpenAsync("/jobs/1/card");
        await person.SeesAsync("Proven tight:");
        await person.SeesAsync("Proven cold:");
        await person.SeesAsync("Signature");
        Assert.InRange(await person.PrintAsync($"demo-card-{width}", "A4"), 1, 2);
        Assert.InRange(await person.PrintAsync($"demo-card-letter-{width}", "Letter"), 1, 2);
        Assert.Empty(site.Failures);
    }
}
