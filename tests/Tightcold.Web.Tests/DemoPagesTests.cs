using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Web.Tests.Bench;

namespace Tightcold.Web.Tests;

/// <summary>Every page of the demo, as it is seen on a phone and on a laptop.</summary>
public sealed class DemoPagesTests(DemoSite demo, DemoVisitors visitors) : IClassFixture<DemoVisitors>
{
    private static readonly Dictionary<string, Func<JobRecord, string>> Places = new()
    {
        ["start"] = _ => "/",
        ["car-new"] = _ => "/cars/new",
        ["car"] = record => $"/cars/{record.Car.Id}",
        ["car-edit"] = record => $"/cars/{record.Car.Id}/edit",
        ["job-new"] = record => $"/cars/{record.Car.Id}/jobs/new",
        ["job"] = _ => "/jobs/1",
        ["journal"] = _ => "/jobs/1/journal",
        ["search"] = _ => "/jobs/1/search",
        ["search-all"] = _ => "/jobs/1/search/all",
        ["mend"] = _ => "/jobs/1/mend",
        ["weigh-in"] = _ => "/jobs/1/weigh-in",
        ["timers"] = _ => "/jobs/1/timers",
        ["kinds"] = _ => "/jobs/1/entries/new",
        ["kit"] = _ => "/kit",
        ["container-new"] = _ => "/kit/containers/new",
        ["container"] = record => $"/kit/containers/{record.Kit.Containers[0].Name}",
        ["import"] = _ => "/import",
        ["entry"] = record => $"/jobs/1/entries/{Reading(record).Id}",
        ["entry-struck"] = record => $"/jobs/1/entries/{Struck(record).Id}",
        ["correct"] = record => $"/jobs/1/entries/{Reading(record).Id}/correct",
        ["strike"] = record => $"/jobs/1/entries/{Reading(record).Id}/strike",
        ["card"] = _ => "/jobs/1/card",
        ["missing"] = _ => "/no-such-page",
    };

    private static readonly HashSet<string> Pictured =
    [
        "form-running-reading",
        "form-leak-check",
        "form-scale-reading",
        "form-container-moved",
    ];

    /// <summary>The forms of entries are one layout; the narrow screen is the hard one.</summary>
    public static TheoryData<string, int> Pages
    {
        get
        {
            var pages = new TheoryData<string, int>();
            foreach (var width in new[] { 390, 1280 })
            foreach (var name in Places.Keys)
                pages.Add(name, width);
            foreach (var kind in EntryKinds.All.Where(kind => kind.Name != EntryKinds.Struck))
                pages.Add("form-" + kind.Name, 390);
            return pages;
        }
    }

    private static Entry Reading(JobRecord record) => record.Journal.OfKind(EntryKinds.StandingReading).First();

    private static Entry Struck(JobRecord record) =>
        record.Journal.All.FirstOrDefault(one => record.Journal.IsStruck(one.Id)) ?? Reading(record);

    [Theory]
    [MemberData(nameof(Pages))]
    public async Task A_page_of_the_demo_keeps_the_accessibility_rules_fits_the_screen_and_can_be_hit_with_a_glove(
        string page,
        int width
    )
    {
        var person = await visitors.PersonAsync(width);
        await person.OpenAsync(
            Places.TryGetValue(page, out var path)
                ? path(await demo.RecordAsync())
                : "/jobs/1/entries/new/" + page["form-".Length..]
        );
        Assert.Empty(await person.RulesBrokenAsync());
        Assert.Empty(await person.TooSmallAsync());
        Assert.False(await person.ScrollsSidewaysAsync());
        if (Places.ContainsKey(page) || Pictured.Contains(page))
            await person.PictureAsync($"demo-{page}-{width}");
        Assert.Empty((await demo.SiteAsync()).Failures);
    }
}
