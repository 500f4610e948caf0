using System.ComponentModel;
using System.Text.Json.Nodes;
using Tightcold.Cli.Show;
using Tightcold.Cli.Wiring;
using Tightcold.Findings;
using Tightcold.Jobs.Entries;

namespace Tightcold.Cli.Commands.Charge;

internal sealed class VerifySettings : DeskSettings
{
    [CommandArgument(0, "<NUMBER>")]
    [Description("Number of the job.")]
    public int Number { get; init; }
}

/// <summary>The proof of cold of a job.</summary>
internal sealed class VerifyCommand(Surroundings surroundings) : DeskCommand<VerifySettings>(surroundings)
{
    protected override async Task<int> RunAsync(VerifySettings settings, CancellationToken cancellation)
    {
        var record = await RecordAsync(settings.Number, cancellation).ConfigureAwait(false);
        var finding = Walk.Of(Step.ProveCold, await Desk.PictureAsync(record, cancellation).ConfigureAwait(false));
        return Answer(
            settings,
            () => new JsonObject { ["job"] = settings.Number, ["finding"] = FindingText.Machine(finding, Units) },
            () => FindingText.Show(Out, finding, record, Units)
        );
    }
}
