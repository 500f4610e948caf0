using System.Text;
using Microsoft.Playwright;
using Tightcold.App.Demo;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Web.Tests.Bench;

namespace Tightcold.Web.Tests;

/// <summary>The whole tool in the phone: its own program in a browser of 390 px, without a server.</summary>
public sealed class PhoneAppTests(Chromium chromium, DemoSite demo)
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    /// <summary>So many of the day's entries are typed in every run; all of them when somebody asks for it.</summary>
    private const int LastEntries = 7;

    [Fact]
    public async Task The_end_of_the_demos_day_is_typed_without_any_network_to_the_card_and_a_site_agrees()
    {
        var story = await demo.RecordAsync();
        var entries = InOrder(story);
        await using var app = await PhoneApp.StartAsync();
        var before = entries[^(LastEntries + 1)];
        await using var person = await app.PersonAsync(chromium, before.WrittenAt);
        await app.GoneAsync(person);
        var asked = app.Asked;
        // Begun on a laptop, and taken along as a file.
        await DemoDay.TakenInAsync(person, story, entries[..^LastEntries]);
        await WriteAsync(
            app,
            person,
            entries[^LastEntries..],
            entries.ToDictionary(entry => entry.Id, entry => entry.Id)
        );
        await person.OpenAsync("/jobs/1");
        await person.TutorialAsync("phone-2-job");
        await CardAsync(person);
        Assert.Equal(asked, app.Asked);
        await AgreesAsync(app, person, ["/jobs/1", "/jobs/1/steps/hold", "/jobs/1/steps/weigh-in", "/jobs/1/journal"]);
    }

    /// <summary>One to four minutes: run when somebody asks for it.</summary>
    [Fact(Explicit = true)]
    public async Task The_demos_day_goes_from_the_first_tap_to_the_printed_card_without_any_network_and_a_site_agrees()
    {
        var story = await demo.RecordAsync();
        await using var app = await PhoneApp.StartAsync();
        await using var person = await app.PersonAsync(chromium, DemoScenario.Start.AddMinutes(-30));
        await app.GoneAsync(person);
        var asked = app.Asked;
        await DemoDay.KitAsync(person, () => app.LaterAsync(person, TimeSpan.FromMinutes(1)), story);
        await DemoDay.CarAsync(person, story);
        await app.SetAsync(person, DemoScenario.Start);
        await person.OpenJobAsync(story.Job.Complaint);
        await WriteAsync(app, person, InOrder(story), []);
        await CardAsync(person);
        Assert.Equal(asked, app.Asked);
        await AgreesAsync(
            app,
            person,
            [
                "/jobs/1",
                "/jobs/1/steps/standing-pressure",
                "/jobs/1/steps/what-is-wrong",
                "/jobs/1/steps/leak-search",
                "/jobs/1/steps/hold",
                "/jobs/1/steps/weigh-in",
                "/jobs/1/steps/prove-cold",
                "/jobs/1/journal",
            ]
        );
    }

    private static Entry[] InOrder(JobRecord story) => [.. story.Journal.All.OrderBy(entry => entry.WrittenAt)];

    private static async Task WriteAsync(
        PhoneApp app,
        Person person,
        IEnumerable<Entry> entries,
        Dictionary<Guid, Guid> ids
    )
    {
        foreach (var entry in entries)
        {
            await app.SetAsync(person, entry.ObservedAt);
            await DemoDay.WriteAsync(person, entry, ids);
        }
    }

    private static async Task CardAsync(Person person)
    {
        await person.OpenAsync("/jobs/1");
        await person.FollowAsync("Job card to print");
        await person.SeesAsync("Proven tight: yes");
    }

    /// <summary>Taken to a laptop as a file: the site there says the same of it, word for word and figure for
    /// figure.</summary>
    private async Task AgreesAsync(PhoneApp app, Person person, string[] paths)
    {
        var everything = await person.Frame.EvaluateAsync<string>("fetch('/everything').then(file => file.text())");
        await using var site = await RunningSite.StartAtAsync(DemoScenario.Start.AddHours(9), Hang.Limit);
        using var client = site.Client();
        using var form = new MultipartFormDataContent
        {
            { new StringContent((await client.HiddenOfAsync("/import"))["token"]), "token" },
            { new ByteArrayContent(Encoding.UTF8.GetBytes(everything)), "file", "phone.json" },
        };
        using var taken = await client.PostAsync(new Uri("/import", UriKind.Relative), form, Cancellation);
        Assert.Equal("/jobs/1", taken.Headers.Location?.OriginalString);
        var (there, here) = (
            (await site.Desk.RecordAsync(1, Cancellation))!.Journal.All.Length,
            await person.Frame.EvaluateAsync<int>(
                "fetch('/jobs/1/news').then(news => news.json()).then(news => news.entries)"
            )
        );
        Assert.Equal(there, here);
        await app.SetAsync(person, DemoScenario.Start.AddHours(9));
        await using var visitor = await chromium.PersonAsync(site, 390);
        foreach (var path in paths)
        {
            await WholeAsync(person, path);
            await WholeAsync(visitor, path);
            Assert.Equal(await visitor.SeesAsync(), await person.SeesAsync());
        }
    }

    /// <summary>The page once its faults are weighed.</summary>
    private static async Task WholeAsync(Person person, string path)
    {
        await person.OpenAsync(path);
        await person.UntilAsync(
            "!document.querySelector('script[data-weighing]')?.dataset.weighing && document.readyState === 'complete'"
        );
    }

    [Fact]
    public async Task What_was_written_down_in_a_folder_of_a_site_is_there_after_the_page_is_killed_and_opens_without_it()
    {
        await using var app = await PhoneApp.StartAsync("/van/");
        await using var person = await app.PersonAsync(chromium, RunningSite.Noon);
        await person.AddCarAsync("Green van", "R-134a", "/van");
        await app.GoneAsync(person);
        await person.OpenJobAsync("blows warm");
        for (var i = 0; i < 3; i++)
        {
            await person.OpenAsync("/van/jobs/1/entries/new/note");
            await person.FillAsync("text", $"note {i}");
            await person.PressAsync("Write it down");
            // Killed where it stands: the worker with the program goes with its page.
            await person.Page.ReloadAsync();
            await PhoneApp.ReadyAsync(person);
        }
        await person.OpenAsync("/van/jobs/1/journal");
        for (var i = 0; i < 3; i++)
            await person.SeesAsync($"note {i}");

        // The copy comes from the phone itself, as a file of its own name.
        await person.OpenAsync("/van/");
        var copy = await person.Page.RunAndWaitForDownloadAsync(() =>
            person.Frame.GetByText("Take a copy of everything").ClickAsync()
        );
        Assert.Matches("^tightcold-[0-9-]+\\.json$", copy.SuggestedFilename);
        var file = await File.ReadAllTextAsync(await copy.PathAsync(), Cancellation);
        Assert.Contains("note 2", file, StringComparison.Ordinal);
        await person.OpenAsync("/van/");
        await person.SeesAsync("Everything is in the copy of");
    }

    [Fact]
    public async Task The_page_that_was_left_is_there_before_the_program_is_and_only_while_all_of_it_is_still_true()
    {
        await using var app = await PhoneApp.StartAsync();
        await using var person = await app.PersonAsync(chromium, RunningSite.Noon);
        await person.AddCarAsync("Green van", "R-134a");
        await person.OpenJobAsync("blows warm");
        await person.OpenAsync("/jobs/1");
        await KeptAsync(person, "/jobs/1");
        await app.GoneAsync(person);

        // A phone on which the program takes for ever to start.
        await PhoneApp.ForgetProgramAsync(person);
        await person.Page.ReloadAsync();
        await person.SeesAsync("Green van");
        Assert.Null(await person.Page.EvaluateAsync<string?>("document.documentElement.dataset.ready ?? null"));

        // On another day it says from when it is.
        await person.Page.EvaluateAsync(
            """
            async () => {
              const pages = await caches.open('tightcold-pages');
              for (const key of await pages.keys()) {
                const page = await pages.match(key), headers = new Headers(page.headers);
                headers.set('X-At', String(Date.UTC(2020, 0, 2)));
                await pages.put(key, new Response(await page.text(), { headers }));
              }
            }
            """
        );
        await person.Page.ReloadAsync();
        await person.SeesAsync("This is how it stood on Jan");
        await person.SeesAsync("Green van");

        // Something was written since: what is not known to be true is not shown.
        await person.Page.EvaluateAsync(
            """
            async () => {
              const file = await (await navigator.storage.getDirectory()).getFileHandle('tightcold.log');
              const journal = await file.createWritable({ keepExistingData: true });
              await journal.write({ type: 'write', position: (await file.getFile()).size, data: ' ' });
              await journal.close();
            }
            """
        );
        await person.Page.ReloadAsync();
        await person.Page.WaitForFunctionAsync("() => document.querySelector('.press') !== null");
        Assert.True(await person.Page.EvaluateAsync<bool>("document.getElementById('page').hidden"));
    }

    [Fact]
    public async Task A_new_version_in_the_middle_of_a_job_waits_for_the_persons_word_and_loses_nothing()
    {
        await using var app = await PhoneApp.StartAsync();
        await using var person = await app.PersonAsync(chromium, RunningSite.Noon);
        await person.AddCarAsync("Green van", "R-134a");
        await person.OpenJobAsync("blows warm");
        await NoteAsync(person, "before the new version");

        app.HasNewer = true;
        await person.Page.EvaluateAsync("navigator.serviceWorker.getRegistration().then(ours => ours.update())");
        await person.Page.GetByText("A new version is here.").WaitForAsync();
        // It lies there whole, and nothing of it is used: the job goes on.
        await NoteAsync(person, "beside the new version");
        Assert.Equal(2, (await VersionsAsync(person)).Length);

        await person.Page.GetByRole(AriaRole.Button, new() { Name = "Begin with it" }).ClickAsync();
        await person.Page.WaitForFunctionAsync(
            "() => document.documentElement.dataset.ready && document.getElementById('newer').hidden"
        );
        await person.Page.WaitForFunctionAsync(
            "() => caches.keys().then(all => all.filter(name => name.startsWith('tightcold-phone-')).length === 1)"
        );
        Assert.StartsWith(
            "tightcold-phone-newer-",
            Assert.Single(await VersionsAsync(person)),
            StringComparison.Ordinal
        );
        await app.GoneAsync(person);
        await NoteAsync(person, "with the new version");
        await person.OpenAsync("/jobs/1/journal");
        foreach (var when in new[] { "before", "beside", "with" })
            await person.SeesAsync($"{when} the new version");
    }

    [Fact]
    public async Task Of_two_tabs_both_write_and_the_second_goes_on_when_the_first_is_closed()
    {
        await using var app = await PhoneApp.StartAsync();
        await using var person = await app.PersonAsync(chromium, RunningSite.Noon);
        await person.AddCarAsync("Green van", "R-134a");
        await person.OpenJobAsync("blows warm");
        var other = await person.Page.Context.NewPageAsync();
        await other.GotoAsync(person.Page.Url);
        await using var second = new Person(person.Page.Context, other, [], inShell: true);
        await PhoneApp.ReadyAsync(second);
        await app.GoneAsync(person);
        await NoteAsync(second, "from the second tab");
        await NoteAsync(person, "from the first tab");
        await person.Page.CloseAsync();
        await NoteAsync(second, "after the first was closed");
        await second.OpenAsync("/jobs/1/journal");
        foreach (var text in new[] { "from the second tab", "from the first tab", "after the first was closed" })
            await second.SeesAsync(text);
        Assert.Equal(
            3,
            await second.Frame.EvaluateAsync<int>(
                "fetch('/jobs/1/news').then(news => news.json()).then(news => news.entries)"
            )
        );
    }

    private static Task NoteAsync(Person person, string text) => PhoneApp.NoteAsync(person, text);

    private static Task<string[]> VersionsAsync(Person person) =>
        person.Page.EvaluateAsync<string[]>(
            "caches.keys().then(all => all.filter(name => name.startsWith('tightcold-phone-')))"
        );

    /// <summary>Pages are put by behind the answer.</summary>
    private static async Task KeptAsync(Person person, string path) =>
        await person.Page.WaitForFunctionAsync(
            $"() => caches.open('tightcold-pages').then(pages => pages.keys()).then(all => all.some(page => page.url.endsWith('{Uri.EscapeDataString(path)}')))"
        );
}
