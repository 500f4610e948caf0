using Tightcold.Pages.Words;
using Tightcold.Web.Tests.Bench;

namespace Tightcold.Web.Tests;

/// <summary>Timers live in the journal; one page may sound.</summary>
public sealed class TimersTests(Chromium chromium, DemoSite demo)
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Fact]
    public async Task The_timers_page_names_what_runs_and_until_when()
    {
        // Half an hour into the demo's pump-down.
        await using var site = await RunningSite.WithDemoUntilAsync(TimeSpan.FromMinutes(200));
        using var client = site.Client();
        using var answer = await client.GetAsync(new Uri("/jobs/1/timers", UriKind.Relative), Cancellation);
        Assert.Equal(
            Tightcold.Pages.Files.SafePolicy.OfPages("'none'"),
            Assert.Single(answer.Headers.GetValues("Content-Security-Policy"))
        );
        var html = await answer.Content.ReadAsStringAsync(Cancellation);
        Assert.Contains("Pumping down", html, StringComparison.Ordinal);
        Assert.Contains("data-due=", html, StringComparison.Ordinal);
        // The same for the script that sounds on every page.
        var all = await client.GetStringAsync(new Uri("/timers", UriKind.Relative), Cancellation);
        Assert.Contains("pumping down", all, StringComparison.Ordinal);
        Assert.Contains("\"go\":\"/jobs/1\"", all, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_is_due_sounds_shakes_and_is_said_on_any_page_once()
    {
        await using var site = await RunningSite.WithDemoUntilAsync(TimeSpan.FromMinutes(246));
        await using var person = await chromium.PersonAsync(site, 390);
        await person.Page.AddInitScriptAsync(
            "window.shaken = 0; navigator.vibrate = () => { window.shaken++; return true; };"
        );
        await person.OpenAsync("/kit");
        Assert.Empty(await person.Page.Locator(".alarm").AllInnerTextsAsync());
        // Due for four minutes: at five it would sound again.
        site.Clock.Advance(TimeSpan.FromMinutes(8));
        await person.OpenAsync("/kit");
        await person.Page.Locator(".alarm").GetByText("holding, valve to the pump shut").WaitForAsync();
        Assert.True(await person.Page.EvaluateAsync<int>("window.shaken") > 0, "the phone does not shake");
        Assert.Empty(await person.RulesBrokenAsync());
        Assert.Empty(await person.TooSmallAsync());
        await person.FollowAsync("Go there");
        Assert.EndsWith("/jobs/1", (await person.AddressAsync()), StringComparison.Ordinal);
        Assert.Empty(await person.Page.Locator(".alarm").AllInnerTextsAsync());
        // While it runs the page says what can be done.
        await person.SeesAsync("Meanwhile");
    }

    [Fact]
    public async Task The_steps_draw_cycle_bands_circuit_pump_down_hold_charge_and_vent_each_with_the_same_in_words()
    {
        var site = await demo.SiteAsync();
        using var client = site.Client();
        var html = "";
        foreach (var step in StepWords.All)
            html += await client.GetStringAsync(
                new Uri($"/jobs/1/steps/{StepWords.Slug(step)}", UriKind.Relative),
                Cancellation
            );
        foreach (
            var title in new[]
            {
                "with the odds that each spot leaks",
                "Pump-down, expected against observed",
                "Hold with its explanations",
                "the measured cycle on the dome",
                "Observed against expected",
                "Charge in the system against time",
                "Vent in time against a sound car",
                "The drawing in words",
            }
        )
            Assert.Contains(title, html, StringComparison.Ordinal);
        // Every drawing that is not decoration has a title and a description, or a label.
        foreach (
            System.Text.RegularExpressions.Match drawing in System.Text.RegularExpressions.Regex.Matches(
                html,
                "<svg(?<head>[^>]*)>(?<inside>.*?)</svg>",
                System.Text.RegularExpressions.RegexOptions.Singleline
            )
        )
            Assert.True(
                drawing.Groups["head"].Value.Contains("aria-hidden=\"true\"", StringComparison.Ordinal)
                    || (
                        drawing.Groups["inside"].Value.Contains("<title>", StringComparison.Ordinal)
                        && drawing.Groups["inside"].Value.Contains("<desc>", StringComparison.Ordinal)
                    ),
                drawing.Groups["head"].Value
            );
        Assert.DoesNotContain("http://", html, StringComparison.Ordinal);
    }
}
