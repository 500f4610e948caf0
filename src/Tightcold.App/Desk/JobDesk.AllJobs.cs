using System.Collections.Immutable;
using System.Runtime.CompilerServices;
using System.Text.Json;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Json;

namespace Tightcold.App.Desk;

/// <summary>Jobs that came in from a file.</summary>
public sealed record TakenJobs(ImmutableArray<Job> Jobs);

public sealed partial class JobDesk
{
    /// <summary>All jobs in one file: each of them as it stands in a file of its own.</summary>
    private const string AllFormat = "tightcold-jobs";

    /// <summary>The text of that file, piece by piece: thousands of jobs are never in memory at once.</summary>
    public async IAsyncEnumerable<string> ExportAllAsync(
        [EnumeratorCancellation] CancellationToken cancellation = default
    )
    {
        yield return $"{{\n\"format\": \"{AllFormat}\",\n\"version\": {JobDocument.Version},\n\"jobs\": [\n";
        var between = "";
        await foreach (var record in store.RecordsAsync(null, null, cancellation).ConfigureAwait(false))
        {
            yield return between + (await ExportAsync(record, cancellation).ConfigureAwait(false)).TrimEnd('\n');
            between = ",\n";
        }
        yield return "\n]\n}\n";
    }

    /// <summary>Takes in a file of one job or of many. All of them are checked before the first is written; each is
    /// then written whole, and the same file again finishes what was broken off.</summary>
    public async Task<Outcome<TakenJobs>> ImportAllAsync(string text, CancellationToken cancellation = default)
    {
        if (Several(text) is not { } texts)
        {
            var one = await ImportAsync(text, cancellation).ConfigureAwait(false);
            return one.Taken ? Outcome<TakenJobs>.Of(new([one.Value])) : Outcome<TakenJobs>.Refused(one.Problems);
        }
        var records = new List<JobRecord>();
        for (var i = 0; i < texts.Count; i++)
        {
            var (record, problems) = await CheckedAsync(texts[i], cancellation).ConfigureAwait(false);
            if (problems.Count > 0)
                return Outcome<TakenJobs>.Refused(
                    problems.Select(problem => problem with { Field = $"$.jobs[{Number(i)}]: {problem.Field}" })
                );
            records.Add(record!);
        }
        var taken = ImmutableArray.CreateBuilder<Job>();
        foreach (var record in Enumerable.Reverse(records))
            taken.Add(await store.MergeAsync(record, cancellation).ConfigureAwait(false));
        return Outcome<TakenJobs>.Of(new(taken.ToImmutable()));
    }

    /// <summary>The texts of the jobs of a file of many; null for any other file.</summary>
    private static List<string>? Several(string text)
    {
        try
        {
            using var document = JsonDocument.Parse(text);
            var root = document.RootElement;
            return
                root.ValueKind == JsonValueKind.Object
                && root.TryGetProperty("format", out var format)
                && format.ValueKind == JsonValueKind.String
                && format.GetString() == AllFormat
                && root.TryGetProperty("jobs", out var jobs)
                && jobs.ValueKind == JsonValueKind.Array
                ? [.. jobs.EnumerateArray().Select(job => job.GetRawText())]
                : null;
        }
        catch (JsonException)
        {
            // Whoever reads it as one job says what is wrong with it.
            return null;
        }
    }
}
