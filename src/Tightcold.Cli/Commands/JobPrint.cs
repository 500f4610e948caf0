using System.Text.Json.Nodes;
using Tightcold.Cli.Show;
using Tightcold.Cli.Wiring;
using Tightcold.Jobs.Journals;
using Tightcold.Web.Card;

namespace Tightcold.Cli.Commands;

/// <summary>Writes the job card: one HTML page to be printed or kept.</summary>
internal sealed class JobPrint(Surroundings surroundings) : DeskCommand<JobPrintSettings>(surroundings)
{
    protected override async Task<int> RunAsync(JobPrintSettings settings, CancellationToken cancellation)
    {
        var record = await RecordAsync(settings.Number, cancellation).ConfigureAwait(false);
        var path = settings.To ?? string.Create(System.Globalization.CultureInfo.InvariantCulture, $"job-{settings.Number}.html");
        await WriteAsync(record, path, Units, Surroundings.Clock, cancellation).ConfigureAwait(false);
        return Answer(settings, () => new JsonObject { ["card"] = path }, () => Page.Line(Out, $"card of job {settings.Number} written to {path}"));
    }

    public static async Task WriteAsync(JobRecord record, string path, App.Units.ReaderUnits units, TimeProvider clock, CancellationToken cancellation)
    {
        var card = await CardPage.RenderAsync(record, units, clock.GetLocalNow(), cancellation).ConfigureAwait(false);
        await File.WriteAllTextAsync(path, card, cancellation).ConfigureAwait(false);
    }
}
