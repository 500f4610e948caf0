using Microsoft.Playwright;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Web.Tests.Bench;

namespace Tightcold.Web.Tests;

/// <summary>What a phone's browser does with storage: nothing acknowledged is lost without a word.</summary>
public sealed class PhoneStorageTests(Chromium chromium)
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    private static async Task BeginAsync(Person person)
    {
        await person.AddCarAsync("Green van", "R-134a");
        await person.OpenJobAsync("blows warm");
    }

    private static Task NoteAsync(Person person, string text) => PhoneApp.NoteAsync(person, text);

    private static async Task KilledAsync(Person person)
    {
        await person.Page.ReloadAsync();
        await PhoneApp.ReadyAsync(person);
    }

    /// <summary>Does something with the folder of files while the program does not start, and so lets go of
    /// them.</summary>
    private static async Task WithoutProgramAsync(Person person, string change)
    {
        await person.OfflineAsync(true);
        await PhoneApp.ForgetProgramAsync(person);
        await person.Page.ReloadAsync();
        // The page that was left stays to be read, and says why nothing else comes.
        await person.Page.Locator("#of-the-journal").GetByText("It did not open").WaitForAsync();
        await person.Page.EvaluateAsync(
            $$"""
            async () => {
              const folder = await navigator.storage.getDirectory();
              // The worker that was killed lets go of it a moment later.
              for (;;) try { return await ({{change}})(folder); } catch { await new Promise(done => setTimeout(done, 50)); }
            }
            """
        );
        await person.OfflineAsync(false);
    }

    private static Task<bool> IsInFilesAsync(Person person) =>
        person.Page.EvaluateAsync<bool>(
            """
            navigator.storage.getDirectory()
              .then(folder => folder.getFileHandle('tightcold.log')).then(file => file.getFile()).then(file => file.size > 0).catch(() => false)
            """
        );

    [Fact]
    public async Task A_browser_without_files_of_its_own_keeps_the_journal_in_its_database()
    {
        await using var app = await PhoneApp.StartAsync(hasFiles: false);
        await using var person = await app.PersonAsync(chromium, RunningSite.Noon);
        await BeginAsync(person);
        await app.GoneAsync(person);
        for (var i = 0; i < 3; i++)
        {
            await NoteAsync(person, $"note {i}");
            await KilledAsync(person);
        }
        await person.OpenAsync("/jobs/1/journal");
        for (var i = 0; i < 3; i++)
            await person.SeesAsync($"note {i}");
        Assert.False(await IsInFilesAsync(person));
        // The other worker follows it there too.
        await person.OpenAsync("/jobs/1/card");
        await person.SeesAsync("note 2");
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task A_full_phone_gives_the_form_back_and_what_was_acknowledged_stays(bool hasFiles)
    {
        await using var app = await PhoneApp.StartAsync(hasFiles: hasFiles);
        await using var person = await app.PersonAsync(chromium, RunningSite.Noon);
        await BeginAsync(person);
        await NoteAsync(person, "before it was full");
        await app.FullAsync(person, true);
        await person.OpenAsync("/jobs/1/entries/new/note");
        await person.FillAsync("text", "while it was full");
        await person.Frame.GetByRole(AriaRole.Button, new() { Name = "Write it down", Exact = true }).ClickAsync();
        // Kept beside the journal, and said why.
        await person.Frame.GetByText("the disk that holds the data is full").WaitForAsync();
        await person.OpenAsync("/jobs/1/journal");
        await person.SeesAsync("before it was full");
        Assert.Equal(1, await person.Journal.CountAsync());

        await app.FullAsync(person, false);
        await person.OpenAsync("/jobs/1/journal");
        await person.Frame.Locator("ol.journal > li").Filter(new() { HasText = "while it was full" }).WaitForAsync();
        await NoteAsync(person, "after it");
        await KilledAsync(person);
        await person.OpenAsync("/jobs/1/journal");
        foreach (var when in new[] { "before it was full", "while it was full", "after it" })
            await person.SeesAsync(when);
        Assert.Equal(3, await person.Journal.CountAsync());
    }

    [Fact]
    public async Task A_journal_that_the_browser_cleared_is_told_from_one_that_was_never_begun()
    {
        await using var app = await PhoneApp.StartAsync();
        await using var person = await app.PersonAsync(chromium, RunningSite.Noon);
        Assert.False(await person.Page.Locator("#of-the-journal").IsVisibleAsync());
        await person.SeesAsync("Something was here before?");
        await person.TutorialAsync("phone-1-start");
        await BeginAsync(person);
        await NoteAsync(person, "not copied");
        await KilledAsync(person);
        Assert.False(await person.Page.Locator("#of-the-journal").IsVisibleAsync());

        await WithoutProgramAsync(person, "folder => folder.removeEntry('tightcold.log')");
        await KilledAsync(person);
        await person.Page.GetByText("The browser cleared the journal that was here").WaitForAsync();
        await person.Page.GetByRole(AriaRole.Button, new() { Name = "Understood" }).ClickAsync();
        await person.OpenAsync("/");
        await person.SeesAsync("Something was here before?");
        // Understood once, it is not said again.
        await KilledAsync(person);
        Assert.False(await person.Page.Locator("#of-the-journal").IsVisibleAsync());
    }

    [Fact]
    public async Task A_writing_that_was_torn_off_is_told_above_the_page_and_what_was_acknowledged_is_there()
    {
        await using var app = await PhoneApp.StartAsync();
        await using var person = await app.PersonAsync(chromium, RunningSite.Noon);
        await BeginAsync(person);
        await NoteAsync(person, "acknowledged");
        await WithoutProgramAsync(
            person,
            """
            async folder => {
              const file = await folder.getFileHandle('tightcold.log');
              const journal = await file.createWritable({ keepExistingData: true });
              await journal.write({ type: 'write', position: (await file.getFile()).size, data: '{"half a line' });
              await journal.close();
            }
            """
        );
        await KilledAsync(person);
        await person
            .Page.Locator("#of-the-journal")
            .GetByText("The last writing did not come to its end")
            .WaitForAsync();
        await person.OpenAsync("/jobs/1/journal");
        await person.SeesAsync("acknowledged");
    }

    [Fact]
    public async Task Five_thousand_entries_come_in_and_are_all_there_after_the_page_is_killed()
    {
        const int Jobs = 50,
            Entries = 100;
        await using var source = PhoneSite.At(RunningSite.Noon);
        var car = await source.Desk.AddCarAsync(
            new Dictionary<string, string> { ["label"] = "Green van", ["refrigerant"] = "R-134a" },
            Cancellation
        );
        for (var job = 0; job < Jobs; job++)
        {
            var opened = await source.Desk.OpenJobAsync(car.Value!.Id, "blows warm", Cancellation);
            var fields = FieldBag.Empty.With("text", new FieldValue.Text($"of job {job}"));
            await source.Log.AddEntriesAsync(
                opened.Value!.Id,
                [
                    .. Enumerable
                        .Range(0, Entries)
                        .Select(at =>
                        {
                            var when = RunningSite.Noon.AddMinutes(at - Entries);
                            return new Entry(Guid.CreateVersion7(), EntryKinds.Note, when, when, "", fields);
                        }),
                ],
                Cancellation
            );
        }
        var file = string.Concat(await source.Desk.ExportAllAsync(Cancellation).ToListAsync(Cancellation));

        await using var app = await PhoneApp.StartAsync();
        await using var person = await app.PersonAsync(chromium, RunningSite.Noon);
        await app.GoneAsync(person);
        await person.OpenAsync("/import");
        await person.ChooseFileAsync(file);
        await person.PressAsync("Take it in");
        await KilledAsync(person);
        var counted = await person.Frame.EvaluateAsync<int>(
            """
            (async () => {
              let sum = 0;
              for (let job = 1; job <= 50; job++) sum += (await (await fetch(`/jobs/${job}/news`)).json()).entries;
              return sum;
            })()
            """
        );
        Assert.Equal(Jobs * Entries, counted);
        await person.OpenAsync("/jobs/50/entries/new/note");
        await person.FillAsync("text", "one more");
        await person.PressAsync("Write it down");
        await person.OpenAsync("/jobs/50/journal");
        await person.SeesAsync("one more");
    }
}
