using Tightcold.Jobs.Journals;

[assembly: AssemblyFixture(typeof(Tightcold.Web.Tests.Bench.DemoSite))]

namespace Tightcold.Web.Tests.Bench;

/// <summary>The demo's job on one site, for all tests that only look: its faults are weighed once.</summary>
public sealed class DemoSite : IAsyncDisposable
{
    private readonly Lazy<Task<(RunningSite Site, JobRecord Record)>> started = new(async () =>
    {
        var site = await RunningSite.WithDemoAsync();
        return (site, (await site.Desk.RecordAsync(1, TestContext.Current.CancellationToken))!);
    });

    /// <summary>Shared: nothing is written here, and its clock stands.</summary>
    public async Task<RunningSite> SiteAsync() => (await started.Value).Site;

    public async Task<JobRecord> RecordAsync() => (await started.Value).Record;

    public async ValueTask DisposeAsync()
    {
        if (started.IsValueCreated)
            await (await started.Value).Site.DisposeAsync();
    }
}
