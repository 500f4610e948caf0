using System.Text.Json;
using Microsoft.Playwright;
using Tightcold.Jobs.Entries;
using Tightcold.Web.Tests.Bench;

namespace Tightcold.Web.Tests;

/// <summary>The laptop hands out the program for the phone, and afterwards each gives the other what it lacks.</summary>
public sealed class PhoneExchangeTests(Chromium chromium)
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    private static Uri PhoneAt(RunningSite site) =>
        new UriBuilder(site.Address) { Host = "localhost", Path = "/phone/" }.Uri;

    private async Task<Person> PhoneOfAsync(RunningSite site, string? key)
    {
        var phone = await chromium.InShellAsync(PhoneAt(site), 390, 0, key);
        await PhoneApp.ReadyAsync(phone);
        return phone;
    }

    private static async Task WriteOnPhoneAsync(Person phone, string car, string note)
    {
        await phone.AddCarAsync(car, "R-134a", "/phone");
        await phone.OpenJobAsync("blows warm");
        await phone.OpenAsync("/phone/jobs/1/entries/new/note");
        await phone.FillAsync("text", note);
        await phone.PressAsync("Write it down");
    }

    private static async Task WriteOnLaptopAsync(RunningSite site, string car, string note)
    {
        var added = await site.Desk.AddCarAsync(
            new Dictionary<string, string> { ["label"] = car, ["refrigerant"] = "R-1234yf" },
            Cancellation
        );
        var job = await site.Desk.OpenJobAsync(added.Value!.Id, "blows warm", Cancellation);
        await NoteAsync(site, job.Value!.Number, note);
    }

    private static async Task NoteAsync(RunningSite site, int job, string note) =>
        Assert.True(
            (
                await site.Desk.AddEntryAsync(
                    job,
                    EntryKinds.Note,
                    new Dictionary<string, string> { ["text"] = note },
                    null,
                    "",
                    cancellation: Cancellation
                )
            ).Taken
        );

    private static async Task ExchangeAsync(Person phone, string says)
    {
        await phone.OpenAsync("/phone/exchange");
        await SaysAsync(phone, says);
    }

    /// <summary>Pressed, and at its end.</summary>
    private static async Task SaysAsync(Person phone, string says)
    {
        await phone.PressAsync("Exchange now");
        await phone.UntilAsync("!document.querySelector('#laptop button').disabled");
        await phone.SeesAsync(says);
    }

    /// <summary>What somebody holds, by the ids and sums of its tally, whatever stands first.</summary>
    private static string[] Held(string tally)
    {
        using var read = JsonDocument.Parse(tally);
        return
        [
            .. read
                .RootElement.GetProperty("jobs")
                .EnumerateArray()
                .Concat(read.RootElement.GetProperty("cars").EnumerateArray())
                .Select(one => $"{one.GetProperty("id")} {one.GetProperty("sum")}")
                .Order(StringComparer.Ordinal),
        ];
    }

    private static async Task<string> WholeAsync(IAsyncEnumerable<string> parts) =>
        string.Concat(await parts.ToListAsync(Cancellation));

    [Fact]
    public async Task A_phone_that_has_its_program_from_the_laptop_exchanges_with_it_at_one_press()
    {
        await using var site = await RunningSite.WithPhoneAsync();
        await using var phone = await PhoneOfAsync(site, site.OwnerKey);
        await WriteOnPhoneAsync(phone, "Green van", "written on the phone");
        await WriteOnLaptopAsync(site, "Red estate", "written on the laptop");
        await phone.OpenAsync("/phone/exchange");
        await phone.PictureAsync("phone-exchange-390");
        Assert.Empty(await phone.RulesBrokenAsync());
        await ExchangeAsync(phone, "Jobs given: 1, taken: 1. Both hold the same now.");
        await phone.TutorialAsync("phone-3-exchange");
        Assert.Equal(
            Held(await WholeAsync(site.Desk.TallyAsync(Cancellation))),
            Held(await phone.Frame.EvaluateAsync<string>("fetch('/phone/exchange/tally').then(tally => tally.text())"))
        );
        var record = (await site.Desk.RecordAsync(2, Cancellation))!;
        Assert.Equal("Green van", record.Car.Label);
        Assert.Contains(record.Journal.All, entry => entry.Fields.Text("text") == "written on the phone");
        await phone.OpenAsync("/phone/jobs/2/journal");
        await phone.SeesAsync("written on the laptop");

        // Once more changes nothing; what was written in between comes, on either side.
        await ExchangeAsync(phone, "Both held the same already.");
        await NoteAsync(site, 2, "to the phone's own job");
        await ExchangeAsync(phone, "Jobs given: 0, taken: 1. Both hold the same now.");
        await phone.OpenAsync("/phone/jobs/1/journal");
        await phone.SeesAsync("to the phone's own job");
    }

    [Fact]
    public async Task Without_the_laptop_the_exchange_says_so_and_goes_on_when_it_is_back()
    {
        await using var site = await RunningSite.WithPhoneAsync();
        await using var phone = await PhoneOfAsync(site, site.OwnerKey);
        await WriteOnPhoneAsync(phone, "Green van", "written on the phone");
        await phone.OpenAsync("/phone/exchange");
        await phone.Frame.GetByRole(AriaRole.Button, new() { Name = "Exchange now" }).WaitForAsync();
        await phone.OfflineAsync(true);
        await SaysAsync(phone, "It was broken off: no answer.");
        await phone.OpenAsync("/phone/exchange");
        await phone.Frame.GetByText("The laptop does not answer").WaitForAsync();
        await phone.OfflineAsync(false);
        await ExchangeAsync(phone, "Jobs given: 1, taken: 0. Both hold the same now.");
    }

    [Fact]
    public async Task A_phone_that_is_not_paired_gets_the_program_and_nothing_of_what_the_laptop_holds()
    {
        await using var site = await RunningSite.WithPhoneAsync();
        await WriteOnLaptopAsync(site, "Red estate", "written on the laptop");
        await using var phone = await PhoneOfAsync(site, null);
        await ExchangeAsync(phone, "The laptop does not know this phone: pair it, then press again.");
        Assert.Equal(
            "/pair",
            await phone.Frame.GetByRole(AriaRole.Link, new() { Name = "Pair this phone" }).GetAttributeAsync("href")
        );
        await phone.OpenAsync("/phone/");
        Assert.DoesNotContain("Red estate", await phone.SeesAsync(), StringComparison.Ordinal);
        using var stranger = RunningSite.Client(site.Address, null);
        foreach (var path in new[] { "/exchange", "/exchange/tally", "/everything" })
        {
            using var answer = await stranger.GetAsync(new Uri(path, UriKind.Relative), Cancellation);
            Assert.Equal(System.Net.HttpStatusCode.Forbidden, answer.StatusCode);
        }
    }

    [Fact]
    public async Task What_the_site_hands_out_keeps_the_doors_shut_that_its_own_page_names()
    {
        await using var site = await RunningSite.WithPhoneAsync();
        using var stranger = RunningSite.Client(site.Address, null);
        using var shell = await stranger.GetAsync(new Uri("/phone/", UriKind.Relative), Cancellation);
        var policy = shell.Headers.GetValues("Content-Security-Policy").Single();
        Assert.Equal(Tightcold.Pages.Files.SafePolicy.OfThePhone, policy);
        // On a plain web server the page's own words are all there is.
        Assert.Contains(
            $"http-equiv=\"Content-Security-Policy\" content=\"{policy}\"",
            await shell.Content.ReadAsStringAsync(Cancellation),
            StringComparison.Ordinal
        );
        foreach (var away in new[] { "/phone/../site.db", "/phone/%2e%2e/files.js", "/phone/..%2ffiles.js" })
        {
            using var answer = await stranger.GetAsync(new Uri(away, UriKind.Relative), Cancellation);
            Assert.NotEqual(System.Net.HttpStatusCode.OK, answer.StatusCode);
        }
        await using var without = await RunningSite.StartAsync();
        using var nobody = without.Client();
        using var nothing = await nobody.GetAsync(new Uri("/phone/", UriKind.Relative), Cancellation);
        Assert.Equal(System.Net.HttpStatusCode.NotFound, nothing.StatusCode);
        Assert.DoesNotContain(
            "href=\"/phone/\"",
            await nobody.GetStringAsync(new Uri("/", UriKind.Relative), Cancellation),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task By_file_whoever_gives_a_tally_gets_what_it_lacks_and_what_is_none_is_named()
    {
        await using var site = await RunningSite.StartAsync();
        await WriteOnLaptopAsync(site, "Red estate", "written on the laptop");
        await using var person = await chromium.PersonAsync(site, 390);
        await person.OpenAsync("/exchange");
        await person.ChooseFileAsync(
            "{ \"format\": \"tightcold-tally\", \"version\": 1, \"cars\": [], \"kits\": [], \"jobs\": [] }"
        );
        var file = await person.Page.RunAndWaitForDownloadAsync(() =>
            person.Page.GetByRole(AriaRole.Button, new() { Name = "What they lack, as a file" }).ClickAsync()
        );
        Assert.StartsWith("tightcold-lacking-", file.SuggestedFilename, StringComparison.Ordinal);
        Assert.Contains(
            "written on the laptop",
            await File.ReadAllTextAsync(await file.PathAsync(), Cancellation),
            StringComparison.Ordinal
        );
        var tally = await person.Page.RunAndWaitForDownloadAsync(() =>
            person.Page.GetByRole(AriaRole.Link, new() { Name = "The tally of what is here" }).ClickAsync()
        );
        await person.OpenAsync("/exchange");
        await person.ChooseFileAsync(await File.ReadAllTextAsync(await tally.PathAsync(), Cancellation));
        var nothing = await person.Page.RunAndWaitForDownloadAsync(() =>
            person.Page.GetByRole(AriaRole.Button, new() { Name = "What they lack, as a file" }).ClickAsync()
        );
        Assert.DoesNotContain(
            "written on",
            await File.ReadAllTextAsync(await nothing.PathAsync(), Cancellation),
            StringComparison.Ordinal
        );
        await person.OpenAsync("/exchange");
        await person.ChooseFileAsync("{ \"format\": \"tightcold-tally\", \"version\": 2 }");
        await person.PressAsync("What they lack, as a file");
        await person.SeesAsync("This is no tally that can be used");
        await person.SeesAsync("newer");
        Assert.Empty(await person.RulesBrokenAsync());
    }
}
