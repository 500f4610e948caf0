using System.ComponentModel;
using System.Text.Json.Nodes;
using Tightcold.Cli.Show;
using Tightcold.Cli.Wiring;
using Tightcold.Jobs.Journals;
using Tightcold.Tongues;

namespace Tightcold.Cli.Commands;

internal sealed class JobChainSettings : JobSettings
{
    [CommandArgument(1, "[DIGEST]")]
    [Description("As a card shows it, or its first digits: says whether the record still holds it.")]
    public string? Digest { get; init; }
}

/// <summary>The chain of a job's journal, and whether a card printed earlier still tells of this record.</summary>
internal sealed class JobChain(Surroundings surroundings) : DeskCommand<JobChainSettings>(surroundings)
{
    protected override async Task<int> RunAsync(JobChainSettings settings, CancellationToken cancellation)
    {
        var record = await RecordAsync(settings.Number, cancellation).ConfigureAwait(false);
        var broken = JournalChain.Broken(record);
        var whole = broken is null && record.Chain.Length == record.Journal.All.Length;
        var asked = settings.Digest?.Replace("-", "", StringComparison.Ordinal).ToLowerInvariant();
        if (asked is { Length: < 8 or > 64 })
            throw new RefusedException("digest", settings.Digest!, "8 to 64 digits of it are needed");
        var place = asked is null
            ? -1
            : record
                .Chain.Select(link => link.Digest)
                .ToList()
                .FindIndex(digest => digest.StartsWith(asked, StringComparison.Ordinal));
        var said = new List<string>();
        if (record.Chain.Length > 0)
            said.Add(
                Say.Many(
                    record.Journal.All.Length,
                    $"Job {record.Job.Number}: {record.Journal.All.Length} entry, "
                        + $"{JournalChain.OnCard(record.Chain[^1].Digest)}.",
                    $"Job {record.Job.Number}: {record.Journal.All.Length} entries, "
                        + $"{JournalChain.OnCard(record.Chain[^1].Digest)}."
                )
            );
        said.Add(
            whole ? Say.It("Every entry is as it was written down.")
            : broken is { } link
                ? Say.It($"The chain breaks at the entry {link.Entry.ToString()}: it, or one before it, was changed.")
            : Say.It("Entries are there without their digests; see tightcold check.")
        );
        if (asked is not null)
            said.Add(
                place >= 0
                    ? Say.Many(
                        place + 1,
                        $"{settings.Digest} is the record of its first {place + 1} entries.",
                        $"{settings.Digest} is the record of its first {place + 1} entries."
                    )
                    : Say.It(
                        $"{settings.Digest} is no digest of this record: it was made anew, or the card is of another "
                            + $"job."
                    )
            );
        Answer(
            settings,
            () =>
                new JsonObject
                {
                    ["job"] = record.Job.Number,
                    ["whole"] = whole,
                    ["broken-at"] = broken?.Entry.ToString(),
                    ["found-at"] = place >= 0 ? place + 1 : null,
                    ["chain"] = new JsonArray([
                        .. record.Chain.Select(link =>
                            (JsonNode)new JsonObject { ["entry"] = link.Entry.ToString(), ["digest"] = link.Digest }
                        ),
                    ]),
                },
            () => said.ForEach(sentence => Page.Line(Out, sentence))
        );
        return whole && (asked is null || place >= 0) ? ExitCode.Done : ExitCode.Trouble;
    }
}
