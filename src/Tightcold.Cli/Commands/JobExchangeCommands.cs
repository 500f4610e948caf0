using System.Text.Json.Nodes;
using Tightcold.Cli.Show;
using Tightcold.Cli.Wiring;
using Tightcold.Jobs.Exchange;
using Tightcold.Jobs.Journals;
using Tightcold.Tongues;

namespace Tightcold.Cli.Commands;

internal sealed class JobExport(Surroundings surroundings) : DeskCommand<JobExportSettings>(surroundings)
{
    protected override async Task<int> RunAsync(JobExportSettings settings, CancellationToken cancellation)
    {
        if (settings.All == settings.Number is not null)
            throw new RefusedException(
                "number",
                settings.All ? "--all" : "",
                "the number of a job is needed, or --all for all of them"
            );
        if (settings.Without is not null && !settings.All)
            throw new RefusedException("without", settings.Without, "it goes with --all: one job is written whole");
        var pieces = settings.Number is { } number
            ? OneAsync(number, cancellation)
            : Desk.ExportAllAsync(await WithoutAsync(settings, cancellation).ConfigureAwait(false), cancellation);
        if (settings.To is not { } path)
        {
            await foreach (var piece in pieces.ConfigureAwait(false))
                Page.Raw(Out, piece);
            return ExitCode.Done;
        }
        await PieceFile.WriteAsync(path, pieces, cancellation).ConfigureAwait(false);
        return Answer(
            settings,
            () => new JsonObject { ["written"] = path },
            () =>
                Page.Line(
                    Out,
                    settings.Number is { } written ? Say.It($"job {written} written to {path}")
                        : settings.Without is { } tally ? Say.It($"what is lacking in {tally} written to {path}")
                        : Say.It($"all jobs written to {path}")
                )
        );
    }

    private async IAsyncEnumerable<string> OneAsync(
        int number,
        [System.Runtime.CompilerServices.EnumeratorCancellation] CancellationToken cancellation
    )
    {
        yield return await Desk.ExportAsync(await RecordAsync(number, cancellation).ConfigureAwait(false), cancellation)
            .ConfigureAwait(false);
    }

    private async Task<Tally> WithoutAsync(JobExportSettings settings, CancellationToken cancellation)
    {
        if (settings.Without is not { } path)
            return Tally.Empty;
        var text = await Files.ReadAsync("without", path, Surroundings, cancellation).ConfigureAwait(false);
        var (tally, problems) = TallyDocument.Read(text);
        return tally ?? throw new RefusedException(problems);
    }
}

/// <summary>What is held here, for whoever sends what is lacking.</summary>
internal sealed class JobTally(Surroundings surroundings) : DeskCommand<JobTallySettings>(surroundings)
{
    protected override async Task<int> RunAsync(JobTallySettings settings, CancellationToken cancellation)
    {
        var pieces = Desk.TallyAsync(cancellation);
        if (settings.To is not { } path)
        {
            await foreach (var piece in pieces.ConfigureAwait(false))
                Page.Raw(Out, piece);
            return ExitCode.Done;
        }
        await PieceFile.WriteAsync(path, pieces, cancellation).ConfigureAwait(false);
        return Answer(
            settings,
            () => new JsonObject { ["written"] = path },
            () => Page.Line(Out, Say.It($"what is held here written to {path}"))
        );
    }
}

/// <summary>A long text goes to its file piece by piece, and appears there whole.</summary>
internal static class PieceFile
{
    public static async Task WriteAsync(string path, IAsyncEnumerable<string> pieces, CancellationToken cancellation)
    {
        using var file = Files.Begin(path);
        var writer = new StreamWriter(file.Beside, append: false, new System.Text.UTF8Encoding(false));
        await using (writer.ConfigureAwait(false))
            await foreach (var piece in pieces.ConfigureAwait(false))
                await writer.WriteAsync(piece.AsMemory(), cancellation).ConfigureAwait(false);
        file.Finish();
    }
}

internal sealed class JobImport(Surroundings surroundings) : DeskCommand<JobImportSettings>(surroundings)
{
    protected override async Task<int> RunAsync(JobImportSettings settings, CancellationToken cancellation)
    {
        var text = await Files.ReadAsync("file", settings.From, Surroundings, cancellation).ConfigureAwait(false);
        var taken = (await Desk.ImportAllAsync(text, cancellation).ConfigureAwait(false)).Value();
        var leftOut = taken.LeftOut.Select(said => said.Render(Units)).ToList();
        Answer(
            settings,
            () =>
                new JsonObject
                {
                    ["jobs"] = new JsonArray([.. taken.Jobs.Select(Machine)]),
                    ["cars"] = taken.Cars,
                    ["kits"] = taken.Kits,
                    ["left-out"] = new JsonArray([.. leftOut.Select(said => (JsonNode)said)]),
                },
            () =>
            {
                foreach (var line in Lines(taken))
                    Page.Line(Out, line);
                foreach (var said in leftOut)
                    Page.Line(Surroundings.Trouble, said);
            }
        );
        return leftOut.Count == 0 ? ExitCode.Done : ExitCode.Refused;
    }

    private static IEnumerable<string> Lines(App.Desk.TakenJobs taken)
    {
        if (taken.Cars > 0)
            yield return Say.Many(taken.Cars, $"{taken.Cars} car new or changed", $"{taken.Cars} cars new or changed");
        if (taken.Kits > 0)
            yield return Say.Many(
                taken.Kits,
                $"{taken.Kits} version of the kit imported",
                $"{taken.Kits} versions of the kit imported"
            );
        if (taken.Jobs is [var job])
            yield return Say.It($"imported as job {job.Number}");
        else if (taken.Jobs.Length > 0 || taken.LeftOut.IsEmpty)
            yield return Say.Many(
                taken.Jobs.Length,
                $"{taken.Jobs.Length} job imported",
                $"{taken.Jobs.Length} jobs imported"
            );
    }

    internal static JsonNode Machine(Job job) => new JsonObject { ["number"] = job.Number, ["id"] = job.Id.ToString() };
}
