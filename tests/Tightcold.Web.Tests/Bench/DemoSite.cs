using Tightcold.Jobs.Journals;

namespace Tightcold.Web.Tests.Bench;

/// <summary>The demo's job on one site, for tests that only look; a person at a phone and one at a laptop go from page to
/// page there.</summary>
public sealed class DemoSite(Chromium chromium) : IAsyncLifetime
{
    private readonly Dictionary<int, Person> people = [];
    private RunningSite? site;

    public RunningSite Site => site!;
    public JobRecord Record { get; private set; } = null!;

    public async ValueTask InitializeAsync()
    {
        site = await RunningSite.WithDemoAsync();
        Record = (await site.Desk.RecordAsync(1, TestContext.Current.CancellationToken))!;
    }

    public async Task<Person> PersonAsync(int width) =>
        people.TryGetValue(width, out var there) ? there : people[width] = await chromium.PersonAsync(Site, width);

    public async ValueTask DisposeAsync()
    {
        foreach (var person in people.Values) await person.DisposeAsync();
        if (site is not null) await site.DisposeAsync();
    }
}
