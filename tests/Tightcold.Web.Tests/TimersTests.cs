using Tightcold.Web.Http;
using Tightcold.Web.Scripts;
using Tightcold.Web.Tests.Bench;

namespace Tightcold.Web.Tests;

/// <summary>Timers live in the journal; one page may sound.</summary>
public sealed class TimersTests
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Fact]
    public async Task The_timers_page_names_what_runs_and_until_when_and_alone_may_run_our_own_script()
    {
        // Half an hour into the demo's pump-down.
        await using var site = await RunningSite.WithDemoUntilAsync(TimeSpan.FromMinutes(200));
        using var client = site.Client();
        using var answer = await client.GetAsync(new Uri("/jobs/1/timers", UriKind.Relative), Cancellation);
        Assert.Equal(SafeHeaders.Policy + "; script-src 'self'", Assert.Single(answer.Headers.GetValues("Content-Security-Policy")));
        var html = await answer.Content.ReadAsStringAsync(Cancellation);
        Assert.Contains("Pumping down", html, StringComparison.Ordinal);
        Assert.Contains("data-due=", html, StringComparison.Ordinal);
        using var script = await client.GetAsync(new Uri("/timers.js", UriKind.Relative), Cancellation);
        Assert.StartsWith("text/javascript", script.Content.Headers.ContentType!.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_job_page_draws_circuit_pump_down_and_hold_with_the_same_in_words_and_runs_no_script_but_its_own_file()
    {
        await using var site = await RunningSite.WithDemoAsync();
        using var client = site.Client();
        using var answer = await client.GetAsync(new Uri("/jobs/1", UriKind.Relative), Cancellation);
        var html = await answer.Content.ReadAsStringAsync(Cancellation);
        var script = new Uri(site.Address, OwnScript.Live.Address);
        Assert.Equal($"{SafeHeaders.Policy}; script-src {script}; connect-src 'self'", Assert.Single(answer.Headers.GetValues("Content-Security-Policy")));
        foreach (var title in new[] { "with the odds that each spot leaks", "Pump-down, expected against observed", "Hold with its explanations", "The drawing in words" })
            Assert.Contains(title, html, StringComparison.Ordinal);
        Assert.Equal(2, html.Split("<script").Length);
        Assert.DoesNotContain("http://", html, StringComparison.Ordinal);
    }
}
