using Tightcold.Findings;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Pages.Answering;
using Tightcold.Web.Tests.Bench;

namespace Tightcold.Web.Tests;

/// <summary>The start page reads its open jobs again only when something was written: it must not miss what was.</summary>
public sealed class StartSightTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_job_seen_from_the_list_is_read_once_while_nothing_is_written_and_again_after_every_change()
    {
        await using var site = await RunningSite.WithDemoAsync();
        using var findings = new FindingSource(Walk.Of, TimeSpan.Zero);
        async Task<JobRecord> SeenAsync()
        {
            var version = await site.Desk.VersionAsync(Stop);
            var job = (await site.Desk.JobsAsync(Stop)).Single(job => job.Number == 1);
            return (await findings.AtAGlanceAsync(site.Desk, job, version, Stop))!.Picture.Record;
        }
        var first = await SeenAsync();
        Assert.Same(first, await SeenAsync());
        await using var next = await site.SecondAsync();
        foreach (
            var change in new Func<Task>[]
            {
                async () =>
                    await next.Desk.AddEntryAsync(
                        1,
                        EntryKinds.Note,
                        new Dictionary<string, string> { ["text"] = "written next door" },
                        null,
                        "Ada"
                    ),
                async () =>
                    await next.Desk.UpdateKitAsync(
                        new Dictionary<string, string> { ["altitude"] = "640 m" },
                        cancellation: Stop
                    ),
            }
        )
        {
            await change();
            var seen = await SeenAsync();
            var anew = (await site.Desk.RecordAsync(1, Stop))!;
            Assert.Equal(anew.Journal.All.Select(entry => entry.Id), seen.Journal.All.Select(entry => entry.Id));
            Assert.Equal(anew.Kits.Select(kit => kit.Id), seen.Kits.Select(kit => kit.Id));
        }
        // What was being weighed for an earlier state comes late and is not taken for the one of now.
        var job = (await site.Desk.JobsAsync(Stop)).Single(job => job.Number == 1);
        var version = await site.Desk.VersionAsync(Stop);
        await findings.OfAsync(site.Desk, first, Stop);
        var now = (await findings.AtAGlanceAsync(site.Desk, job, version, Stop))!.Picture.Record;
        Assert.Contains(now.Journal.OfKind(EntryKinds.Note), note => note.Fields.Text("text") == "written next door");
    }
}
