namespace Tightcold.Web.Tests.Bench;

/// <summary>A person at a phone and one at a laptop who go from page to page of the demo, test after test.</summary>
public sealed class DemoVisitors(Chromium chromium, DemoSite demo) : IAsyncDisposable
{
    private readonly Dictionary<int, Person> people = [];

    public async Task<Person> PersonAsync(int width) =>
        people.TryGetValue(width, out var there)
            ? there
            : people[width] = await chromium.PersonAsync(await demo.SiteAsync(), width);

    public async ValueTask DisposeAsync()
    {
        foreach (var person in people.Values)
            await person.DisposeAsync();
    }
}
