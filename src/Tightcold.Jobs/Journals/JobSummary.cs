using System.Collections.Immutable;

namespace Tightcold.Jobs.Journals;

/// <summary>One line of the list of jobs: what a record says, without the record.</summary>
/// <param name="LastEntryAt">When the last entry that counts was observed; null when none does.</param>
/// <param name="Entries">Everything ever written, struck entries too.</param>
public sealed record JobSummary(
    int Number,
    Guid Id,
    Guid CarId,
    string CarLabel,
    string Complaint,
    string State,
    string? WaitingFor,
    DateTimeOffset OpenedAt,
    DateTimeOffset? LastEntryAt,
    int Entries
)
{
    public static JobSummary Of(JobRecord record)
    {
        ArgumentNullException.ThrowIfNull(record);
        var (job, standing) = (record.Job, record.Journal.Standing);
        return new(
            job.Number,
            job.Id,
            job.CarId,
            record.Car.Label,
            job.Complaint,
            record.State,
            record.WaitingFor,
            job.OpenedAt,
            standing.Length == 0 ? null : standing[^1].ObservedAt,
            record.Journal.All.Length
        );
    }
}

/// <summary>A part of the list of jobs, newest first.</summary>
/// <param name="More">Older ones fit as well; ask again with <see cref="JobSearch.Before"/> the last number.</param>
public sealed record JobsFound(ImmutableArray<JobSummary> Jobs, bool More);

/// <summary>Which jobs are asked for.</summary>
public sealed record JobSearch
{
    /// <summary>Enough for a list on a phone.</summary>
    public const int UsualMost = 50;

    /// <summary>open, waiting or closed; all when null.</summary>
    public string? State { get; init; }

    public Guid? CarId { get; init; }

    /// <summary>Words that all occur in the car's name, the complaint or what is waited for, in any case.</summary>
    public string Words { get; init; } = "";

    /// <summary>Look for the words in the notes of the journals too. Reads all notes: not for a page that comes up
    /// while a person types.</summary>
    public bool InNotes { get; init; }

    /// <summary>Only jobs with a smaller number: the next part of a list.</summary>
    public int? Before { get; init; }

    public int Most { get; init; } = UsualMost;
}

/// <summary>Text as it is searched: without regard to case, the same on every machine.</summary>
public static class SearchKey
{
    /// <summary>More words than a person types into a search field are passed over.</summary>
    private const int MostWords = 8;

    public static string Of(params IEnumerable<string?> texts) =>
        string.Join('\n', texts.Where(text => !string.IsNullOrEmpty(text))).ToUpperInvariant();

    public static ImmutableArray<string> Words(string typed)
    {
        ArgumentNullException.ThrowIfNull(typed);
        return
        [
            .. typed
                .Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)
                .Take(MostWords)
                .Select(word => word.ToUpperInvariant()),
        ];
    }
}
