using Tightcold.App.Demo;
using Tightcold.Findings;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Web.Tests.Bench;

namespace Tightcold.Web.Tests;

/// <summary>The demo's Saturday on a phone, from an empty data folder to the printed card, every entry typed into its
/// form; the long search under the car goes without network. Its pictures are those of docs/tutorial.md.</summary>
public sealed class WholeJobOnThePhoneTests(Chromium chromium, DemoSite demo)
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Fact]
    public async Task The_demos_day_goes_from_the_empty_page_to_the_printed_card_with_a_stretch_without_network()
    {
        var story = await demo.RecordAsync();
        await using var site = await RunningSite.StartAtAsync(DemoScenario.Start.AddMinutes(-30));
        await using var person = await chromium.PersonAsync(site, 390);
        await person.OpenAsync("/");
        await person.TutorialAsync("1-start");
        await DemoDay.KitAsync(
            person,
            () =>
            {
                site.Clock.Advance(TimeSpan.FromMinutes(1));
                return Task.CompletedTask;
            },
            story
        );
        await DemoDay.CarAsync(person, story);
        await person.TutorialAsync("2-car");
        await Advance(site, DemoScenario.Start);
        await person.OpenJobAsync(story.Job.Complaint);

        var ids = new Dictionary<Guid, Guid>();
        var entries = story.Journal.All.OrderBy(entry => entry.WrittenAt).ToArray();
        var search = entries
            .Where(entry =>
                entry.Kind == EntryKinds.LeakCheck
                && entry.Fields.Text("test") == "nitrogen and soap"
                && entry.Fields.Text("outcome") == "nothing"
            )
            .Skip(1)
            .ToArray();
        foreach (var entry in entries)
        {
            await Advance(site, entry.ObservedAt);
            // Under the car the network ends; it is back for the pressure test after the search.
            if (entry == search[0])
                await BeginOfflineAsync(person);
            if (search.Contains(entry))
            {
                await CheckOfflineAsync(person, entry);
                continue;
            }
            if (entry.ObservedAt > search[^1].ObservedAt && await person.IsOfflineAsync())
                await EndOfflineAsync(person, site, search.Length);
            await DemoDay.WriteAsync(person, entry, ids);
            await PictureAsync(person, entries, entry);
        }

        var record = await RecordAsync(site);
        Assert.Equal(story.Journal.Standing.Length, record.Journal.Standing.Length);
        var findings = Walk.Of(record).ToDictionary(finding => finding.Step);
        foreach (var step in new[] { Step.LeakSearch, Step.Recover, Step.Hold, Step.WeighIn })
            Assert.Equal(Judgement.Good, findings[step].Judgement);
        await person.OpenAsync("/jobs/1");
        await person.PictureAsync("whole-job-390");
        await person.FollowAsync("Job card to print");
        await person.SeesAsync("Proven tight: yes");
        await person.TutorialAsync("9-card");
        Assert.InRange(await person.PrintAsync("whole-job-card", "A4"), 1, 2);
        Assert.Empty(site.Failures);
    }

    private static async Task BeginOfflineAsync(Person person)
    {
        await person.OpenAsync("/jobs/1");
        await person.KeptPageAsync("/jobs/1");
        await person.KeptPageAsync($"/jobs/1/entries/new/{EntryKinds.LeakCheck}");
        await person.OfflineAsync(true);
    }

    private static async Task CheckOfflineAsync(Person person, Entry entry)
    {
        await person.OpenAsync($"/jobs/1/entries/new/{EntryKinds.LeakCheck}");
        await DemoDay.FillAsync(person, entry);
        await person.PressAsync("Write it down");
        await person.ArrivesAsync("/jobs/1");
    }

    private static async Task EndOfflineAsync(Person person, RunningSite site, int waiting)
    {
        await person.SeesAsync($"{waiting} waiting for the network");
        await person.TutorialAsync("4-offline");
        await person.OfflineAsync(false);
        await person.Page.EvaluateAsync("dispatchEvent(new Event('online'))");
        await person.NothingWaitsAsync();
        Assert.Equal(
            waiting,
            (await RecordAsync(site))
                .Journal.OfKind(EntryKinds.LeakCheck)
                .Count(entry =>
                    entry.Fields.Text("test") == "nitrogen and soap" && entry.Fields.Text("outcome") == "nothing"
                ) - 1
        );
    }

    private static async Task PictureAsync(Person person, Entry[] entries, Entry entry)
    {
        bool Last(string kind, Func<Entry, bool>? which = null) =>
            entry == entries.Where(one => one.Kind == kind && which?.Invoke(one) != false).Last();
        bool First(string kind) => entry == entries.First(one => one.Kind == kind);
        if (First(EntryKinds.StandingReading))
        {
            await person.OpenAsync("/jobs/1/steps/standing-pressure");
            await person.TutorialAsync("3-standing");
        }
        else if (Last(EntryKinds.LeakCheck, one => one.Fields.Text("outcome") == "clear leak"))
        {
            await person.OpenAsync("/jobs/1/search");
            await person.ShowAsync("svg.circuit");
            await person.TutorialAsync("5-map");
        }
        else if (Last(EntryKinds.VacuumReading))
        {
            await person.OpenAsync("/jobs/1/steps/hold");
            await person.TutorialAsync("6-hold");
        }
        else if (entry == entries.Where(one => one.Kind == EntryKinds.ScaleReading).SkipLast(1).Last())
        {
            await person.OpenAsync("/jobs/1/weigh-in");
            await person.TutorialAsync("7-weigh-in");
        }
        else if (Last(EntryKinds.VentReading))
        {
            await person.OpenAsync("/jobs/1/steps/prove-cold");
            await person.ShowAsync("figure");
            await person.TutorialAsync("8-cold");
        }
    }

    private static async Task<JobRecord> RecordAsync(RunningSite site) =>
        (await site.Desk.RecordAsync(1, Cancellation))!;

    private static Task Advance(RunningSite site, DateTimeOffset to)
    {
        if (to > site.Clock.GetUtcNow())
            site.Clock.SetUtcNow(to.ToUniversalTime());
        return Task.CompletedTask;
    }
}
