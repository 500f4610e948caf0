using Tightcold.Jobs.Entries;
using Tightcold.Web.Tests.Bench;

namespace Tightcold.Web.Tests;

/// <summary>A stretch without network: pages that were seen open again, what is written waits in the browser, and is
/// sent once when the network is back.</summary>
public sealed class OfflineTests(Chromium chromium)
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    private static async Task<int> EntriesAsync(RunningSite site, string kind) =>
        (await site.Desk.RecordAsync(1, Cancellation))!.Journal.OfKind(kind).Count();

    [Fact]
    public async Task Without_network_job_and_form_open_again_two_entries_wait_and_are_written_once_with_their_own_times()
    {
        await using var site = await RunningSite.WithDemoUntilAsync(TimeSpan.FromMinutes(240));
        await using var person = await chromium.PersonAsync(site, 390);
        await person.OpenAsync("/jobs/1");
        // The very first page is followed by no other: what the worker keeps, it was told of by that page.
        await person.KeptPageAsync("/jobs/1");
        await person.KeptPageAsync("/jobs/1/entries/new/vacuum-reading?f.pump-valve=shut");
        await person.OpenAsync("/jobs/1/weigh-in");
        await person.KeptPageAsync("/jobs/1/weigh-in");
        await person.OpenAsync("/jobs/1");
        var before = await EntriesAsync(site, EntryKinds.VacuumReading);

        await person.OfflineAsync(true);
        await person.ReloadAsync();
        await person.SeesAsync("Grey estate with the dented hatch");
        await person.SeesAsync("No network: this is how the page was at");
        foreach (var reading in new[] { "1.31", "1.31" })
        {
            await person.OpenAsync("/jobs/1/entries/new/vacuum-reading?f.pump-valve=shut");
            await person.FillAsync("absolute-pressure", reading + " mbar");
            await person.ChooseAsync("pump-valve", "shut");
            await person.PressAsync("Write it down");
            await person.ArrivesAsync("/jobs/1");
        }
        await person.SeesAsync("2 waiting for the network, kept in this browser");
        await person.SeesAsync("Vacuum reading: 1.31 mbar, shut");
        await person.PictureAsync("offline-390");
        await person.OpenAsync("/jobs/1/weigh-in");
        await person.SeesAsync("to go of");
        // The driver's "no network" may lapse while the browser makes a page on a busy machine; what slipped through
        // then is known by its id and counted once, below.
        Assert.InRange(await EntriesAsync(site, EntryKinds.VacuumReading), before, before + 2);
        // A page that was never seen says so instead of an error of the browser.
        await person.OpenAsync("/ledger");
        Assert.Contains(
            "No network here",
            await person.Page.Locator("body").InnerTextAsync(),
            StringComparison.Ordinal
        );

        await person.OpenAsync("/jobs/1");
        await person.OfflineAsync(false);
        await person.Page.EvaluateAsync("dispatchEvent(new Event('online'))");
        await person.NothingWaitsAsync();
        // The same reading twice, minutes apart, is two entries; sent again by another page nothing is added.
        Assert.Equal(before + 2, await EntriesAsync(site, EntryKinds.VacuumReading));
        await person.ReloadAsync();
        Assert.Equal(before + 2, await EntriesAsync(site, EntryKinds.VacuumReading));
        Assert.Empty(site.Failures);
    }

    [Fact]
    public async Task What_is_refused_after_the_wait_stays_with_its_reason_and_an_unlikely_value_is_asked_about_there()
    {
        await using var site = await RunningSite.WithDemoUntilAsync(TimeSpan.FromMinutes(60));
        await using var person = await chromium.PersonAsync(site, 390);
        await person.OpenAsync("/jobs/1");
        await person.KeptPageAsync("/jobs/1");
        await person.KeptPageAsync("/jobs/1/entries/new/running-reading");
        var before = await EntriesAsync(site, EntryKinds.RunningReading);
        await person.OfflineAsync(true);
        foreach (var value in new[] { "12 bar gauge", "twelve bar gauge" })
        {
            await person.OpenFormAsync(EntryKinds.RunningReading);
            await person.FillAsync("low-side", value);
            await person.PressAsync("Write it down");
            await person.ArrivesAsync("/jobs/1");
        }
        await person.OfflineAsync(false);
        await person.Page.EvaluateAsync("dispatchEvent(new Event('online'))");
        await person.Page.GetByText("Sent, and not taken").WaitForAsync();
        await person.SeesAsync("Low side 12 bar gauge: usual is");
        await person.SeesAsync("“twelve” is not taken");
        Assert.Equal(before, await EntriesAsync(site, EntryKinds.RunningReading));
        await person.PressAsync("Yes, it is right");
        await person.UntilAsync("JSON.parse(localStorage.getItem('tightcold-kept')).length === 1");
        Assert.Equal(before + 1, await EntriesAsync(site, EntryKinds.RunningReading));
        await person.PressAsync("Throw it away");
        Assert.False(await person.Page.Locator("#kept").IsVisibleAsync());
        Assert.Empty(site.Failures);
    }

    [Fact]
    public async Task A_car_and_a_job_sent_twice_are_one_car_and_one_job()
    {
        await using var site = await RunningSite.StartAsync();
        using var client = site.Client();
        var car = await client.HiddenOfAsync("/cars/new");
        car["f.label"] = "Grey estate";
        car["f.refrigerant"] = "R-134a";
        for (var i = 0; i < 2; i++)
            (await client.SendAsync("/cars/new", car)).Dispose();
        var only = Assert.Single(await site.Desk.CarsAsync(Cancellation));
        var job = await client.HiddenOfAsync($"/cars/{only.Id}/jobs/new");
        job["complaint"] = "Warm";
        for (var i = 0; i < 2; i++)
            (await client.SendAsync($"/cars/{only.Id}/jobs/new", job)).Dispose();
        Assert.Single(await site.Desk.JobsAsync(Cancellation));
    }
}
