using System.Buffers.Binary;
using System.Text.Json;
using Microsoft.Playwright;
using Tightcold.Pages.Parts;
using Tightcold.Web.Tests.Bench;

namespace Tightcold.Web.Tests;

/// <summary>What makes a phone treat the site as its own: the home screen, its sharing, its voice, a code to
/// scan.</summary>
public sealed class HomeScreenTests(Chromium chromium, DemoSite demo)
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Fact]
    public async Task The_description_for_the_home_screen_names_icons_that_are_as_large_as_it_says()
    {
        var site = await demo.SiteAsync();
        using var client = site.Client();
        var page = await client.GetStringAsync(new Uri("/", UriKind.Relative), Cancellation);
        Assert.Contains("<link rel=\"manifest\" href=\"/site.webmanifest\"", page, StringComparison.Ordinal);
        using var manifest = JsonDocument.Parse(
            await client.GetStringAsync(new Uri("/site.webmanifest", UriKind.Relative), Cancellation)
        );
        Assert.Equal("standalone", manifest.RootElement.GetProperty("display").GetString());
        var sizes = new List<int>();
        foreach (var icon in manifest.RootElement.GetProperty("icons").EnumerateArray())
        {
            var bytes = await client.GetByteArrayAsync(
                new Uri(icon.GetProperty("src").GetString()!, UriKind.Relative),
                Cancellation
            );
            if (icon.GetProperty("type").GetString() != "image/png")
                continue;
            // The header of a PNG: width and height stand behind its first sixteen bytes.
            Assert.Equal("PNG"u8, bytes.AsSpan(1, 3));
            var (width, height) = (
                BinaryPrimitives.ReadInt32BigEndian(bytes.AsSpan(16)),
                BinaryPrimitives.ReadInt32BigEndian(bytes.AsSpan(20))
            );
            Assert.Equal($"{width}x{height}", icon.GetProperty("sizes").GetString());
            sizes.Add(width);
        }
        Assert.Equal([192, 512], sizes);
    }

    [Fact]
    public async Task The_card_goes_to_the_phones_own_sharing_as_a_file_that_stands_alone()
    {
        var site = await demo.SiteAsync();
        await using var phone = await chromium.PersonAsync(site, 390);
        await phone.Page.AddInitScriptAsync(
            "navigator.canShare = what => what.files.length === 1; navigator.share = async what => { window.shared = { name: what.files[0].name, text: await what.files[0].text(), title: what.title }; document.documentElement.dataset.shared = 'yes'; };"
        );
        await phone.OpenAsync("/jobs/1/card");
        await phone.Page.GetByRole(AriaRole.Link, new() { Name = "Send or save it" }).ClickAsync();
        await phone.Page.Locator("html[data-shared]").WaitForAsync();
        Assert.Equal("job-1-card.html", await phone.Page.EvaluateAsync<string>("shared.name"));
        var text = await phone.Page.EvaluateAsync<string>("shared.text");
        Assert.Contains("Air-conditioning job card", text, StringComparison.Ordinal);
        Assert.DoesNotContain("<script", text, StringComparison.Ordinal);
        Assert.DoesNotContain("Back to the job", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Where_a_browser_cannot_share_the_card_is_saved()
    {
        var site = await demo.SiteAsync();
        await using var person = await chromium.PersonAsync(site, 1280);
        await person.OpenAsync("/jobs/1/card");
        await person.Page.EvaluateAsync("navigator.canShare = undefined");
        var download = await person.Page.RunAndWaitForDownloadAsync(() =>
            person.Page.GetByRole(AriaRole.Link, new() { Name = "Send or save it" }).ClickAsync()
        );
        Assert.Equal("job-1-card.html", download.SuggestedFilename);
    }

    [Fact]
    public async Task The_label_of_a_car_carries_a_code_that_opens_its_history()
    {
        var site = await demo.SiteAsync();
        var record = await demo.RecordAsync();
        await using var person = await chromium.PersonAsync(site, 390);
        await person.OpenAsync($"/cars/{record.Car.Id}/label");
        var path = await person.Page.Locator("svg.qr path").GetAttributeAsync("d");
        Assert.Equal(QrPicture.Of(new Uri(site.Address, $"/cars/{record.Car.Id}").ToString()).Path(), path);
        // Alone on this machine the code opens nowhere else, and the page says so.
        await person.SeesAsync("Opens on this machine only");
        Assert.Empty(await person.RulesBrokenAsync());
    }

    [Fact]
    public async Task Nothing_listens_until_somebody_switched_it_on_and_then_the_page_says_where_the_sound_goes()
    {
        await using var site = await RunningSite.StartAsync();
        using var client = site.Client();
        using var before = await client.GetAsync(new Uri("/kit", UriKind.Relative), Cancellation);
        Assert.Contains(
            "microphone=()",
            before.Headers.GetValues("Permissions-Policy").Single(),
            StringComparison.Ordinal
        );
        Assert.DoesNotContain(
            "/voice.",
            await before.Content.ReadAsStringAsync(Cancellation),
            StringComparison.Ordinal
        );

        await using var phone = await chromium.PersonAsync(site, 390);
        await phone.Page.AddInitScriptAsync(
            "window.SpeechRecognition = class { start() { setTimeout(() => { this.onresult({ results: [[{ transcript: window.saying }]] }); this.onend(); }); } };"
        );
        await phone.OpenAsync("/kit");
        await phone.SeesAsync("most browsers send it to their maker");
        await phone.PressAsync("Off. Switch it on, on this device");
        Assert.Empty(await phone.RulesBrokenAsync());
        await phone.OpenAsync("/cars/new");
        await phone.Page.EvaluateAsync(
            "window.saying = 'five hundred and fifty grams'; for (const fold of document.querySelectorAll('details')) fold.open = true;"
        );
        await phone
            .Page.Locator("[name='f.label-charge']")
            .Locator("xpath=ancestor::*[contains(@class,'field')][1]")
            .Locator("button.say")
            .ClickAsync();
        await phone.Page.GetByText("Heard 550. Look at it before you write it down.").WaitForAsync();
        Assert.Equal("550", await phone.StandsInAsync("label-charge"));
        foreach (
            var (said, number) in new (string, string?)[]
            {
                ("28.5", "28.5"),
                ("twenty eight point five", "28.5"),
                ("minus twelve", "-12"),
                ("two hundred five psi", "205"),
                ("1,250 grams", "1250"),
                ("zero point zero five", "0.05"),
                // Two numbers, or none: asked again rather than guessed.
                ("twenty thirty", null),
                ("28 30", null),
                ("hello there", null),
            }
        )
            Assert.Equal(number, await phone.Page.EvaluateAsync<string?>("said => tightcoldNumber(said)", said));
    }
}
