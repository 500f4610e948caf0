using System.Text.Json.Nodes;
using Spectre.Console;
using Tightcold.App.Demo;
using Tightcold.Cli.Show;
using Tightcold.Cli.Wiring;
using Tightcold.Findings;
using Tightcold.Findings.Now;
using Tightcold.Jobs.Journals;
using Tightcold.Storage;
using Tightcold.Tongues;

namespace Tightcold.Cli.Commands;

/// <summary>Plays the invented job through the desk and the database, prints every finding and writes the card. It is
/// played beside the person's own data and taken in as a job from elsewhere, so that its kit never becomes
/// theirs.</summary>
internal sealed class Demo(Surroundings surroundings) : DeskCommand<DemoSettings>(surroundings)
{
    protected override async Task<int> RunAsync(DemoSettings settings, CancellationToken cancellation)
    {
        var job = await TakeInAsync(settings.Json, cancellation).ConfigureAwait(false);
        var record = await RecordAsync(job.Number, cancellation).ConfigureAwait(false);
        var views = await Desk.PictureAsync(record, cancellation).ConfigureAwait(false);
        var (findings, now) = (Walk.Of(views), NowWords.Of(views));
        var path = settings.To ?? "tightcold-demo.html";
        await JobPrint.WriteAsync(views, path, Units, Surroundings.Clock, cancellation).ConfigureAwait(false);
        return Answer(
            settings,
            () =>
                new JsonObject
                {
                    ["job"] = job.Number,
                    ["card"] = path,
                    ["findings"] = new JsonArray([
                        .. findings.Select(finding => (JsonNode)FindingText.Machine(finding, Units)),
                    ]),
                },
            () =>
            {
                Page.Heading(Out, Say.It($"Job {job.Number}, {record.Car.Label}: {record.Job.Complaint}"));
                Page.Line(Out, "");
                NowText.Show(Out, now, Units);
                FindingText.ShowAll(Out, findings, now.Step, record, Units);
                Page.Line(Out, Say.It($"The job card is {path}. See the job in a browser with: tightcold serve"));
            }
        );
    }

    private async Task<Job> TakeInAsync(bool quiet, CancellationToken cancellation)
    {
        var stage = Files.Stage("tightcold-demo-");
        try
        {
            var beside = await JobStore.OpenAsync(stage.FullName, cancellation).ConfigureAwait(false);
            var number = await PlayAsync(beside, quiet, cancellation).ConfigureAwait(false);
            var played = await beside.RecordAsync(number, cancellation).ConfigureAwait(false)
                ?? throw new InvalidOperationException("the demo job is not there");
            return await Store.MergeAsync(played, cancellation).ConfigureAwait(false);
        }
        finally
        {
            JobStore.Release();
            Files.Drop(stage.FullName);
        }
    }

    private async Task<int> PlayAsync(JobStore beside, bool quiet, CancellationToken cancellation)
    {
        if (quiet || !Out.Profile.Capabilities.Interactive)
            return await DemoScenario.PlayAsync(beside, null, cancellation).ConfigureAwait(false);
        return await Out.Status()
            .StartAsync(Say.It("Writing the demo job"), async status =>
                await DemoScenario
                    .PlayAsync(
                        beside,
                        (done, all) => status.Status(Say.It($"Writing the demo job: entry {done} of {all}")),
                        cancellation
                    )
                    .ConfigureAwait(false)
            )
            .ConfigureAwait(false);
    }
}
