using System.Diagnostics;
using System.Globalization;
using Microsoft.Playwright;
using Tightcold.Web.Tests.Bench;

namespace Tightcold.Web.Tests;

/// <summary>How quick the program in the phone is, with the processor cut to a quarter: figures for docs/phone.md, measured when
/// asked for (<c>TIGHTCOLD_FIGURES=print</c>; <c>TIGHTCOLD_SHARE</c> is another share than 0.25). Never a verdict: they say
/// as much of the machine as of the program.</summary>
public sealed class PhoneFiguresTests(Chromium chromium, DemoSite demo)
{
    /// <summary>So many of the day's entries are typed.</summary>
    private const int Typed = 8;

    [Fact]
    public async Task What_a_person_waits_for_at_a_slow_phone()
    {
        Assert.SkipUnless(
            Environment.GetEnvironmentVariable("TIGHTCOLD_FIGURES") == "print",
            "figures, measured when TIGHTCOLD_FIGURES=print asks for them"
        );
        var share = double.Parse(
            Environment.GetEnvironmentVariable("TIGHTCOLD_SHARE") ?? "0.25",
            CultureInfo.InvariantCulture
        );
        var story = await demo.RecordAsync();
        var entries = story.Journal.All.OrderBy(entry => entry.WrittenAt).ToArray();
        await using var app = await PhoneApp.StartAsync();
        await using var person = await app.PersonAsync(chromium, entries[^(Typed + 1)].WrittenAt);
        await DemoDay.TakenInAsync(person, story, entries[..^Typed]);
        await app.GoneAsync(person);

        using var slowed = share < 1 ? new SlowedBrowser(share) : null;
        // A new sitting, at the page that was left.
        await TakesAsync("opened again: the page that was left is there", async () =>
        {
            await person.Page.ReloadAsync(new() { WaitUntil = WaitUntilState.Commit });
            await person.Page.WaitForFunctionAsync(
                "() => document.getElementById('page')?.contentDocument?.querySelector('main h1')"
            );
        });
        await TakesAsync("from there, the program is ready", () => PhoneApp.ReadyAsync(person));
        await TakesAsync("from there, the job's page worked out anew, at a glance", () => GlanceAsync(person));
        await TakesAsync("faults weighed beside it", () => WeighedAsync(person));
        await TakesAsync("the job's page again, weighed", () => person.OpenAsync("/jobs/1"));
        foreach (var step in new[] { "leak-search", "hold", "what-is-wrong" })
            await TakesAsync($"step {step}", () => person.OpenAsync($"/jobs/1/steps/{step}"));
        await TakesAsync("start page", () => person.OpenAsync("/"));
        await TakesAsync("the form of a reading", () => person.OpenAsync("/jobs/1/entries/new/vent-reading"));
        await TakesAsync("the card", () => person.OpenAsync("/jobs/1/card"));
        await person.OpenAsync("/jobs/1");
        foreach (var entry in entries[^Typed..])
        {
            await app.SetAsync(person, entry.ObservedAt);
            await TakesAsync($"{entry.Kind}: form, fields, sent, page after it", () =>
                DemoDay.WriteAsync(person, entry, entries.ToDictionary(one => one.Id, one => one.Id))
            );
        }
        await TakesAsync("the job's page at a glance after it", () => GlanceAsync(person));
        await TakesAsync("faults weighed beside it", () => WeighedAsync(person));
        Say($"memory of the page with both workers: {SlowedBrowser.PagesBytes() / 1e6:0} MB");
    }

    private static async Task GlanceAsync(Person person)
    {
        await person.OpenAsync("/jobs/1");
        await person.UntilAsync("document.querySelector('main h1') !== null");
    }

    private static Task WeighedAsync(Person person) =>
        person.UntilAsync(
            "!document.querySelector('script[data-weighing]')?.dataset.weighing && document.readyState === 'complete'"
        );

    private static async Task TakesAsync(string what, Func<Task> act)
    {
        var clock = Stopwatch.StartNew();
        await act();
        Say(string.Create(CultureInfo.InvariantCulture, $"{what}: {clock.Elapsed.TotalMilliseconds:0} ms"));
    }

    private static void Say(FormattableString figure) => Say(FormattableString.Invariant(figure));

    private static void Say(string figure) => TestContext.Current.SendDiagnosticMessage(figure);
}
