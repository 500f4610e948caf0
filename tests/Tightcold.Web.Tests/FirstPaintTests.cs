using System.Globalization;
using Tightcold.Web.Tests.Bench;

namespace Tightcold.Web.Tests;

/// <summary>How soon a phone shows something: a figure for docs/performance.md, measured when asked for
/// (<c>TIGHTCOLD_FIGURES=print</c>). Never a verdict: it says as much of the machine as of the page.</summary>
public sealed class FirstPaintTests(Chromium chromium, DemoSite demo)
{
    /// <summary>Four times slower than this machine, 1.6 Mbit/s down, 750 kbit/s up, 150 ms there and back: how tools
    /// for the web speak of a slow phone.</summary>
    private const double Slower = 4,
        DownBytesPerS = 1.6e6 / 8,
        UpBytesPerS = 750e3 / 8,
        LatencyMs = 150;

    private const int Rounds = 5;

    [Fact]
    public async Task First_paint_on_a_slow_phone_and_a_slow_network()
    {
        Assert.SkipUnless(
            Environment.GetEnvironmentVariable("TIGHTCOLD_FIGURES") == "print",
            "a figure, measured when TIGHTCOLD_FIGURES=print asks for it"
        );
        var site = await demo.SiteAsync();
        foreach (var path in new[] { "/", "/jobs/1", "/jobs/1/entries/new/running-reading", "/jobs/1/weigh-in" })
        {
            var first = new List<double>();
            var again = new List<double>();
            for (var round = 0; round < Rounds; round++)
            {
                await using var phone = await chromium.PersonAsync(site, 390);
                var wire = await phone.Page.Context.NewCDPSessionAsync(phone.Page);
                await wire.SendAsync("Network.enable");
                await wire.SendAsync(
                    "Network.emulateNetworkConditions",
                    new()
                    {
                        ["offline"] = false,
                        ["latency"] = LatencyMs,
                        ["downloadThroughput"] = DownBytesPerS,
                        ["uploadThroughput"] = UpBytesPerS,
                    }
                );
                await wire.SendAsync("Emulation.setCPUThrottlingRate", new() { ["rate"] = Slower });
                first.Add(await PaintAsync(phone, path));
                again.Add(await PaintAsync(phone, path));
            }
            TestContext.Current.SendDiagnosticMessage(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{path}: first visit {Middle(first):0} ms, again {Middle(again):0} ms"
                )
            );
        }
    }

    private static double Middle(List<double> figures) => figures.Order().ElementAt(figures.Count / 2);

    private static async Task<double> PaintAsync(Person phone, string path)
    {
        await phone.OpenAsync(path);
        // Told once it is there; a page's policy lets no waiting script in.
        for (; ; )
        {
            if (
                await phone.Page.EvaluateAsync<double?>(
                    "performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? null"
                ) is
                { } painted
            )
                return painted;
            await Task.Delay(50, TestContext.Current.CancellationToken);
        }
    }
}
