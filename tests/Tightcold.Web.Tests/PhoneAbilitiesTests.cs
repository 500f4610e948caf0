using Microsoft.Playwright;
using Tightcold.Jobs.Entries;
using Tightcold.Web.Tests.Bench;

namespace Tightcold.Web.Tests;

/// <summary>What a phone can do beside the car, where the program runs in it: the same scripts as on a site, in the frame of
/// the shell and without a server. The phone's own parts (sharing, wake lock, vibration) are stood in for.</summary>
public sealed class PhoneAbilitiesTests(Chromium chromium, DemoSite demo)
{
    /// <summary>What a real phone has and a browser without a screen does not, noted when it is asked for.</summary>
    private const string Stands = """
        navigator.canShare = what => what.files.length === 1;
        navigator.share = async what => { document.documentElement.dataset.shared = what.files[0].name; };
        navigator.vibrate = () => { document.documentElement.dataset.shook = 'yes'; return true; };
        Object.defineProperty(navigator, 'wakeLock', { value: { request: async what => { document.documentElement.dataset.awake = what; return { release: async () => {} }; } } });
        """;

    private async Task<(PhoneApp App, Person Person)> BegunAsync()
    {
        var app = await PhoneApp.StartAsync();
        var person = await app.PersonAsync(chromium, RunningSite.Noon);
        await person.Page.AddInitScriptAsync(Stands);
        await person.AddCarAsync("Green van", "R-134a", "", ("label-charge", "500 g"));
        await person.OpenJobAsync("blows warm");
        await app.GoneAsync(person);
        return (app, person);
    }

    [Fact]
    public async Task A_photo_is_shrunk_kept_and_shown_without_any_network()
    {
        var (app, person) = await BegunAsync();
        await using var _ = app;
        await using var __ = person;
        await person.OpenAsync("/jobs/1/entries/new/note");
        await person.FillAsync("text", "oil at the hose");
        await person.PressAsync("Write it down");
        await person.OpenAsync("/jobs/1/journal");
        await person.NextPageAsync(() => person.Journal.First.GetByRole(AriaRole.Link).First.ClickAsync());
        var taken = Convert.FromBase64String(
            await person.Frame.EvaluateAsync<string>(
                """
                () => {
                  const canvas = document.createElement('canvas');
                  [canvas.width, canvas.height] = [2400, 1800];
                  const ink = canvas.getContext('2d'), dots = ink.createImageData(2400, 1800);
                  for (let i = 0, x = 1; i < dots.data.length; i++) { x = (x * 16807) % 2147483647; dots.data[i] = i % 4 === 3 ? 255 : x & 255; }
                  ink.putImageData(dots, 0, 0);
                  return canvas.toDataURL('image/jpeg', .9).split(',')[1];
                }
                """
            )
        );
        var file = new FilePayload
        {
            Name = "gauge.jpg",
            MimeType = "image/jpeg",
            Buffer = taken,
        };
        await person.Frame.Locator("#photo").SetInputFilesAsync(file);
        await person.Frame.Locator(".shrunk").Filter(new() { HasText = "Ready" }).WaitForAsync();
        await person.PressAsync("Keep the photo");
        await person.UntilAsync("document.querySelector('#photos img')?.naturalWidth > 100");
        await person.Page.ReloadAsync();
        await PhoneApp.ReadyAsync(person);
        await person.UntilAsync("document.querySelector('#photos img')?.naturalWidth > 100");
    }

    [Fact]
    public async Task The_card_goes_to_the_phones_own_sharing_and_the_next_check_into_its_calendar()
    {
        var (app, person) = await BegunAsync();
        await using var _ = app;
        await using var __ = person;
        await person.OpenAsync("/jobs/1/card");
        await person.Frame.GetByRole(AriaRole.Link, new() { Name = "Send or save it" }).ClickAsync();
        await person.Frame.Locator("html[data-shared]").WaitForAsync();
        Assert.Equal(
            "job-1-card.html",
            await person.Frame.EvaluateAsync<string>("document.documentElement.dataset.shared")
        );
        var calendar = await person.Frame.EvaluateAsync<string>(
            "fetch('/jobs/1/next-check.ics').then(async file => file.headers.get('Content-Type') + '\\n' + await file.text())"
        );
        Assert.StartsWith("text/calendar", calendar, StringComparison.Ordinal);
        Assert.Contains("BEGIN:VEVENT", calendar, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_screen_stays_on_while_the_scale_is_read()
    {
        var story = await demo.RecordAsync();
        var entries = story.Journal.All.OrderBy(entry => entry.WrittenAt).ToArray();
        var first = Array.FindIndex(entries, entry => entry.Kind == EntryKinds.ContainerMoved);
        await using var app = await PhoneApp.StartAsync();
        await using var person = await app.PersonAsync(chromium, entries[first].WrittenAt);
        await person.Page.AddInitScriptAsync(Stands);
        await app.GoneAsync(person);
        await DemoDay.TakenInAsync(person, story, entries[..(first + 1)]);
        await person.OpenAsync("/jobs/1/weigh-in");
        await person.UntilAsync("document.documentElement.dataset.awake === 'screen'");
    }

    [Fact]
    public async Task A_timer_that_is_due_shakes_the_phone_and_tells_it_while_the_page_is_hidden()
    {
        var (app, person) = await BegunAsync();
        await using var _ = app;
        await using var __ = person;
        await person.Page.Context.GrantPermissionsAsync(["notifications"]);
        await person.Page.AddInitScriptAsync("Object.defineProperty(document, 'hidden', { value: true });");
        await person.WriteDownAsync(EntryKinds.Opened, ("spot", "receiver-drier"));
        await app.LaterAsync(person, TimeSpan.FromMinutes(11));
        await person.OpenAsync("/jobs/1");
        await person.Frame.Locator(".news.alarm").WaitForAsync();
        await person.UntilAsync("document.documentElement.dataset.shook === 'yes'");
        await person.Page.WaitForFunctionAsync(
            "() => navigator.serviceWorker.ready.then(ours => ours.getNotifications()).then(all => all.length > 0)"
        );
    }
}
