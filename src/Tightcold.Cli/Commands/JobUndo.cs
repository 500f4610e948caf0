using System.Text.Json.Nodes;
using Tightcold.Cli.Show;
using Tightcold.Cli.Wiring;
using Tightcold.Jobs.Json;
using Tightcold.Tongues;

namespace Tightcold.Cli.Commands;

/// <summary>Takes back what was written last; nothing is erased.</summary>
internal sealed class JobUndo(Surroundings surroundings) : DeskCommand<JobUndoSettings>(surroundings)
{
    protected override async Task<int> RunAsync(JobUndoSettings settings, CancellationToken cancellation)
    {
        var who = await WhoAsync(settings.Who, cancellation).ConfigureAwait(false);
        var undone = (await Desk.UndoAsync(settings.Number, who, cancellation).ConfigureAwait(false)).Value();
        return Answer(
            settings,
            () => new JsonObject { ["struck"] = new JsonArray([.. undone.Entries.Select(JobDocument.WriteEntry)]) },
            () =>
            {
                foreach (var entry in undone.Entries)
                    Page.Line(
                        Out,
                        Say.It(
                            $"struck [{Ids.Short(entry.Id)}] {Say.It(entry.Schema.Label)}: "
                                + $"{BagText.OneLine(entry.Schema, entry.Fields, Units)}"
                        )
                    );
                Page.Line(Out, Say.It("Once more takes that back."));
            }
        );
    }
}
