using System.Text.Json.Nodes;
using Tightcold.App.Desk;
using Tightcold.Cli.Show;
using Tightcold.Cli.Wiring;
using Tightcold.Findings.Now;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Json;
using Tightcold.Picture;
using Tightcold.Tongues;

namespace Tightcold.Cli.Commands;

/// <summary>Commands that answer with the entry they saved, and with what was understood.</summary>
internal abstract class SavingCommand<TSettings>(Surroundings surroundings) : DeskCommand<TSettings>(surroundings)
    where TSettings : DeskSettings, new()
{
    protected int Saved(TSettings settings, Entry entry) =>
        Answer(
            settings,
            () => new JsonObject { ["saved"] = JobDocument.WriteEntry(entry) },
            () =>
                Page.Line(
                    Out,
                    Say.It(
                        $"saved [{Ids.Short(entry.Id)}] {Say.It(entry.Schema.Label)}: "
                            + $"{BagText.OneLine(entry.Schema, entry.Fields, Units)}"
                    )
                )
        );
}

internal sealed class JobAdd(Surroundings surroundings) : SavingCommand<JobAddSettings>(surroundings)
{
    protected override async Task<int> RunAsync(JobAddSettings settings, CancellationToken cancellation)
    {
        if (settings.Lines is { } lines)
            return settings.Kind is null
                ? await LinesAsync(settings, lines, cancellation).ConfigureAwait(false)
                : throw new RefusedException(
                    "lines",
                    lines,
                    "entries come either as JSON lines or as a kind with its fields, not both"
                );
        if (settings.Kind is not { } kind)
            throw new RefusedException("kind", "", "the kind of entry is needed here; see tightcold job kinds");
        Guid? id = null;
        if (settings.Id is { } typed)
            id = Guid.TryParseExact(typed, "D", out var parsed)
                ? parsed
                : throw new RefusedException("id", typed, "an id of 32 hexadecimal digits with hyphens is needed");
        var at = Moments.Read("at", settings.At, Surroundings.Clock);
        var who = await WhoAsync(settings.Who, cancellation).ConfigureAwait(false);
        if (
            !settings.Really
            && EntryKinds.Find(kind) is { } schema
            && AskBack.Of(
                new JobPicture(await RecordAsync(settings.Number, cancellation).ConfigureAwait(false)),
                kind,
                FieldReader.Read(schema, FieldArguments.Read(settings.Fields), Say.Tongue.Culture).Bag
            )
                is { } asked
        )
            throw new RefusedException([
                InputProblem.Of(
                    kind,
                    string.Join(' ', settings.Fields ?? []),
                    $"{asked} Nothing was written; with --really it is, and the card is marked"
                ),
            ]);
        var outcome = await Desk.AddEntryAsync(
                settings.Number,
                kind,
                FieldArguments.Read(settings.Fields),
                at,
                who,
                id: id,
                cancellation: cancellation
            )
            .ConfigureAwait(false);
        return Saved(settings, outcome.Value());
    }

    /// <summary>One line in, one line out: <c>saved ID</c> once the entry is on disk, so that a sender knows what to
    /// send again.</summary>
    private async Task<int> LinesAsync(JobAddSettings settings, string from, CancellationToken cancellation)
    {
        var reader = from is "-" or Surroundings.StandardInput
            ? Surroundings.In
            : new StringReader(
                await Files.ReadAsync("--lines", from, Surroundings, cancellation).ConfigureAwait(false)
            );
        var refused = new List<InputProblem>();
        for (var number = 1; await reader.ReadLineAsync(cancellation).ConfigureAwait(false) is { } line; number++)
        {
            if (string.IsNullOrWhiteSpace(line))
                continue;
            var (entry, problems) = JobDocument.ReadEntry(line);
            if (entry is not null)
            {
                var outcome = await Desk.AddWrittenAsync(settings.Number, entry, cancellation).ConfigureAwait(false);
                problems = outcome.Problems;
                if (outcome.Taken)
                    Page.Raw(Out, settings.Json ? $"{{\"saved\":\"{entry.Id}\"}}\n" : $"saved {entry.Id}\n");
            }
            refused.AddRange(
                problems.Select(problem => problem with { Field = Say.It($"line {number}: {problem.Field}") })
            );
        }
        return refused.Count == 0 ? ExitCode.Done : throw new RefusedException(refused);
    }
}

internal sealed class JobCorrect(Surroundings surroundings) : SavingCommand<JobCorrectSettings>(surroundings)
{
    protected override async Task<int> RunAsync(JobCorrectSettings settings, CancellationToken cancellation)
    {
        var record = await RecordAsync(settings.Number, cancellation).ConfigureAwait(false);
        var old = FindEntry(record, settings.Entry);
        if (old.Kind == EntryKinds.Struck)
            throw new RefusedException(
                "entry",
                settings.Entry,
                "a strike has nothing to correct; strike it to take it back"
            );
        var fields = old.Fields.ToDictionary(
            field => field.Key,
            field => BagText.Typed(field.Value),
            StringComparer.Ordinal
        );
        foreach (var (name, text) in FieldArguments.Read(settings.Fields))
            fields[name] = text;
        var at = Moments.Read("at", settings.At, Surroundings.Clock) ?? old.ObservedAt;
        var who = await WhoAsync(settings.Who, cancellation).ConfigureAwait(false);
        var outcome = await Desk.AddEntryAsync(
                settings.Number,
                old.Kind,
                fields,
                at,
                who,
                old.Id,
                settings.Reason,
                cancellation: cancellation
            )
            .ConfigureAwait(false);
        return Saved(settings, outcome.Value());
    }
}

internal sealed class JobStrike(Surroundings surroundings) : SavingCommand<JobStrikeSettings>(surroundings)
{
    protected override async Task<int> RunAsync(JobStrikeSettings settings, CancellationToken cancellation)
    {
        var old = FindEntry(await RecordAsync(settings.Number, cancellation).ConfigureAwait(false), settings.Entry);
        var who = await WhoAsync(settings.Who, cancellation).ConfigureAwait(false);
        var struck = (
            await Desk.StrikeAsync(settings.Number, old.Id, who, settings.Reason ?? "", cancellation)
                .ConfigureAwait(false)
        ).Value();
        return Answer(
            settings,
            () => new JsonObject { ["saved"] = JobDocument.WriteEntry(struck) },
            () =>
                Page.Line(
                    Out,
                    Say.It(
                        $"struck [{Ids.Short(old.Id)}] {Say.It(old.Schema.Label)}; it stays visible and counts no more"
                    )
                )
        );
    }
}
