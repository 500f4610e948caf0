using System.Net;
using Microsoft.Playwright;
using Tightcold.Jobs.Entries;
using Tightcold.Web.Tests.Bench;

namespace Tightcold.Web.Tests;

/// <summary>What is told, seen, felt or tried is written down by tapping, without typing.</summary>
public sealed class TapTests(Chromium chromium)
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    private static readonly (string, string)[] Hot =
    [
        ("low-side", "3.4 bar gauge"),
        ("high-side", "23 bar gauge"),
        ("ambient-temperature", "30 °C"),
        ("engine-speed", "850 rpm"),
        ("blower", "full"),
        ("air-source", "fresh"),
    ];

    private static async Task OpenJobAsync(Person person)
    {
        await person.AddCarAsync(
            "red van",
            "R-134a",
            ("label-charge", "550 g"),
            ("compressor", "fixed"),
            ("device", "expansion valve")
        );
        await person.FollowAsync("Open a job");
        // The first form comes by itself; from there to the page of now.
        await TapAsync(person, "works at speed, fails at idle");
        await person.ArrivesAsync("/jobs/1/entries/new/weather");
        await person.FollowAsync("Now: job 1");
    }

    private static async Task TapAsync(Person person, string row)
    {
        var button = person.Page.GetByRole(AriaRole.Button, new() { Name = row, Exact = true });
        await person.NextPageAsync(() => button.TapAsync());
    }

    [Fact]
    public async Task A_job_is_opened_by_one_tap_on_the_story_and_signs_take_four_taps_and_no_typing()
    {
        await using var site = await RunningSite.StartAsync();
        await using var person = await chromium.PersonAsync(site, 390);
        await OpenJobAsync(person);
        var record = (await site.Desk.RecordAsync(1, Cancellation))!;
        Assert.Equal("works at speed, fails at idle", record.Job.Complaint);
        Assert.Equal("works at speed, fails at idle", record.Journal.Last(EntryKinds.Story)!.Fields.Text("told"));

        // From the page of now: something else, the page of looks, the look, what was found.
        foreach (var link in new[] { "Something else", "Seen, felt, heard or tried" })
            await person.NextPageAsync(() =>
                person.Page.GetByRole(AriaRole.Link, new() { Name = link, Exact = true }).TapAsync()
            );
        await person.Page.GetByText("condenser fan", new() { Exact = true }).TapAsync();
        await TapAsync(person, "fan stands still");
        await person.SeesAsync("fan stands still");
        record = (await site.Desk.RecordAsync(1, Cancellation))!;
        Assert.Equal("fan stands still", record.Journal.Last(EntryKinds.Sign)!.Fields.Text("observation"));
        // Several in a row: two taps each from here.
        await person.Page.GetByText("belt and hub", new() { Exact = true }).TapAsync();
        await TapAsync(person, "belt right, hub turns");
        record = (await site.Desk.RecordAsync(1, Cancellation))!;
        Assert.Equal(2, record.Journal.OfKind(EntryKinds.Sign).Count());
        Assert.Empty(await person.RulesBrokenAsync());
        Assert.Empty(await person.TooSmallAsync());
        Assert.False(await person.ScrollsSidewaysAsync());
        await person.UnfoldAllAsync();
        Assert.Empty(await person.RulesBrokenAsync());
        Assert.Empty(await person.TooSmallAsync());
        Assert.False(await person.ScrollsSidewaysAsync());
        await person.PictureAsync("signs-390");
    }

    [Fact]
    public async Task A_suggested_look_opens_its_group_and_a_suggested_reading_its_form_filled_in()
    {
        await using var site = await RunningSite.StartAsync();
        await using var person = await chromium.PersonAsync(site, 390);
        await OpenJobAsync(person);
        await person.OpenAsync("/jobs/1/entries/new/sign?first=heater%20hose%20pinched%20off");
        await TapAsync(person, "vent colder with the heater hose pinched");
        Assert.Equal(
            "vent colder with the heater hose pinched",
            (await site.Desk.RecordAsync(1, Cancellation))!.Journal.Last(EntryKinds.Sign)!.Fields.Text("observation")
        );
        await person.OpenAsync("/jobs/1");
        await person.WriteDownAsync(
            EntryKinds.Weather,
            ("ambient-temperature", "30 °C"),
            ("relative-humidity", "50 %")
        );
        await person.WriteDownAsync(EntryKinds.RunningReading, Hot);
        await person.OpenAsync("/jobs/1");
        var step = await person.StepAsync("What is wrong");
        await step.Locator(".next a").First.WaitForAsync();
        var links = await step.Locator(".next a")
            .EvaluateAllAsync<string[]>("all => all.map(a => a.getAttribute('href'))");
        Assert.Contains(links, link =>
            link.Contains("first=", StringComparison.Ordinal) || link.Contains("f.", StringComparison.Ordinal)
        );
        // Each leads to a page that is there, and what it knows stands in the form.
        foreach (var link in links)
        {
            var answer = await person.OpenAsync(link);
            Assert.Equal(200, answer!.Status);
        }
        await person.OpenAsync("/jobs/1/entries/new/running-reading?f.aid=fan%20on%20condenser&first=clutch");
        Assert.True(
            await person.Page.Locator("input[name='f.aid'][value='fan on condenser']").IsCheckedAsync(),
            "what the link knows"
        );
        Assert.True(
            await person.Page.Locator("input[name='f.clutch'][value='on']").IsVisibleAsync(),
            "its fold is open"
        );
        Assert.Equal("850", await person.StandsInAsync("engine-speed"));
    }

    [Fact]
    public async Task A_sign_written_down_wrongly_is_corrected_within_its_look_and_a_word_that_is_none_is_refused()
    {
        await using var site = await RunningSite.StartAsync();
        using var client = site.Client();
        var car = await client.HiddenOfAsync("/cars/new");
        car["f.label"] = "red van";
        car["f.refrigerant"] = "R-134a";
        await client.SendAsync("/cars/new", car);
        var id = (await site.Desk.CarsAsync(Cancellation))[0].Id;
        var job = await client.HiddenOfAsync($"/cars/{id}/jobs/new");
        // Neither words nor story: asked for, in the same page.
        using (var blank = await client.SendAsync($"/cars/{id}/jobs/new", job))
            Assert.Equal(HttpStatusCode.UnprocessableEntity, blank.StatusCode);
        job["told"] = "stolen";
        using (var wrong = await client.SendAsync($"/cars/{id}/jobs/new", job))
            Assert.Equal(HttpStatusCode.UnprocessableEntity, wrong.StatusCode);
        Assert.Empty(await site.Desk.JobsAsync(Cancellation));
        job["told"] = "check-up";
        await client.SendAsync($"/cars/{id}/jobs/new", job);
        await client.SendAsync($"/cars/{id}/jobs/new", job);
        Assert.Single((await site.Desk.RecordAsync(1, Cancellation))!.Journal.All);

        var sign = await client.HiddenOfAsync("/jobs/1/entries/new/sign");
        sign["f.observation"] = "fan purple";
        using (var refused = await client.SendAsync("/jobs/1/entries/new/sign", sign))
        {
            Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.StatusCode);
            var page = await refused.Content.ReadAsStringAsync(Cancellation);
            Assert.Contains("fan runs slow or backwards", page, StringComparison.Ordinal);
        }
        sign["f.observation"] = "belt slips";
        await client.SendAsync("/jobs/1/entries/new/sign", sign);
        // The same form sent twice writes once.
        await client.SendAsync("/jobs/1/entries/new/sign", sign);
        var written = (await site.Desk.RecordAsync(1, Cancellation))!.Journal.OfKind(EntryKinds.Sign).Single();
        var form = await client.GetStringAsync(
            new Uri($"/jobs/1/entries/{written.Id}/correct", UriKind.Relative),
            Cancellation
        );
        Assert.Contains("value=\"hub stands still\"", form, StringComparison.Ordinal);
        Assert.DoesNotContain("value=\"oil black\"", form, StringComparison.Ordinal);
    }
}
