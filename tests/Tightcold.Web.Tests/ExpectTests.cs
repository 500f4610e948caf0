using System.Net;
using Tightcold.Web.Tests.Bench;

namespace Tightcold.Web.Tests;

/// <summary>"What should I see?", before the gauges go on.</summary>
public sealed class ExpectTests(Chromium chromium, DemoSite demo)
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Fact]
    public async Task The_page_foretells_gauges_lines_and_vent_with_ranges_and_draws_the_cycle_with_no_script_but_the_sites_own()
    {
        var site = await demo.SiteAsync();
        using var client = site.Client();
        var html = WebUtility.HtmlDecode(
            await client.GetStringAsync(new Uri("/jobs/1/expect", UriKind.Relative), Cancellation)
        );
        foreach (
            var words in new[]
            {
                "From a model, not measured",
                "low side, gauge",
                "high side, gauge",
                "centre vent",
                "discharge line",
                "engine off, all as warm as the air",
                "bar",
                "Pressure-enthalpy diagram of",
                "The drawing in words",
            }
        )
            Assert.Contains(words, html, StringComparison.Ordinal);
        Assert.DoesNotMatch("<script(?! src=\"/[a-z.0-9]+\\.js\" defer></script>)", html);
        Assert.DoesNotContain("<style", html, StringComparison.Ordinal);
        Assert.DoesNotContain("http://", html, StringComparison.Ordinal);
        Assert.Contains(
            "/jobs/1/expect",
            await client.GetStringAsync(new Uri("/jobs/1", UriKind.Relative), Cancellation),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task One_fault_stands_beside_the_healthy_car_and_an_unknown_one_does_not()
    {
        var site = await demo.SiteAsync();
        using var client = site.Client();
        var beside = await client.GetStringAsync(
            new Uri("/jobs/1/expect?fault=condenser-fan&speed=850+rpm", UriKind.Relative),
            Cancellation
        );
        Assert.Contains("<th scope=\"col\">condenser air lacking: 70", beside, StringComparison.Ordinal);
        Assert.Contains("title-condenser-fan", beside, StringComparison.Ordinal);
        var odd = await client.GetStringAsync(
            new Uri("/jobs/1/expect?fault=%3Cb%3E&speed=1e9&air=x", UriKind.Relative),
            Cancellation
        );
        Assert.DoesNotContain("<b>", odd, StringComparison.Ordinal);
        Assert.Contains("<th scope=\"col\">healthy</th>", odd, StringComparison.Ordinal);
        using var none = await client.GetAsync(new Uri("/jobs/9/expect", UriKind.Relative), Cancellation);
        Assert.Equal(HttpStatusCode.NotFound, none.StatusCode);
    }

    [Theory]
    [InlineData(390)]
    [InlineData(1280)]
    public async Task What_is_missing_is_named_and_linked_and_then_the_page_can_be_read_and_hit(int width)
    {
        await using var site = await RunningSite.StartAsync();
        await using var person = await chromium.PersonAsync(site, width);
        await person.AddCarAsync("Grey estate", "R-134a");
        await person.OpenJobAsync("Not cold");
        await person.FollowAsync("What should I see?");
        await person.SeesAsync("Air temperature (weather)");
        await person.SeesAsync("Relative humidity (weather)");
        await person.SeesAsync("Label charge (car)");
        Assert.Empty(await person.RulesBrokenAsync());
        await person.FollowAsync("Complete the car's label");
        await person.FillAsync("label-charge", "620 g");
        await person.PressAsync("Keep this car");
        await person.OpenAsync("/jobs/1/expect");
        await person.FollowAsync("Write down the weather");
        await person.FillAsync("ambient-temperature", "31 °C");
        await person.FillAsync("relative-humidity", "45 %");
        await person.PressAsync("Write it down");
        await person.OpenAsync("/jobs/1");
        await person.FollowAsync("What should I see?");
        await person.SeesAsync("low side, gauge");
        await person.Page.Locator("#fault").SelectOptionAsync("low-charge");
        await person.PressAsync("Show it");
        await person.SeesAsync("refrigerant short by that share");
        Assert.Empty(await person.RulesBrokenAsync());
        Assert.Empty(await person.TooSmallAsync());
        Assert.False(await person.ScrollsSidewaysAsync());
        await person.PictureAsync($"expect-{width}");
        await person.PressAsync("psi °F");
        await person.SeesAsync("psig");
    }
}
