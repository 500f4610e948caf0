using System.Collections.Immutable;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Kits;

namespace Tightcold.LogStore.Lines;

/// <summary>What came in with one line, all or none: any of these parts.</summary>
internal sealed record LogAct
{
    /// <summary>A car, new or in place of what was known of it.</summary>
    public Car? Car { get; init; }

    /// <summary>A version of the workshop's own kit.</summary>
    public Kit? Kit { get; init; }

    /// <summary>The job that the parts below belong to.</summary>
    public LogSubject? OfJob { get; init; }

    /// <summary>The job itself, when it is opened or comes from elsewhere.</summary>
    public Job? Job { get; init; }

    /// <summary>In place of all that stands above of this job: it was damaged, and came again from elsewhere.</summary>
    public bool Anew { get; init; }

    /// <summary>From this act on the job has kits of its own (<see cref="KitsOfJob"/>).</summary>
    public DateTimeOffset? KitsSince { get; init; }

    /// <summary>Kits that the job brings.</summary>
    public ImmutableArray<Kit> Brought { get; init; } = [];

    /// <summary>In the order of arrival.</summary>
    public ImmutableArray<Entry> Entries { get; init; } = [];

    /// <summary>Their bytes stand behind the line, in this order.</summary>
    public ImmutableArray<PhotoHead> Photos { get; init; } = [];

    public bool SaysOfAJob =>
        Job is not null || KitsSince is not null || !Brought.IsEmpty || !Entries.IsEmpty || !Photos.IsEmpty;

    public bool IsEmpty => Car is null && Kit is null && !SaysOfAJob;

    public IEnumerable<LogSubject> Subjects
    {
        get
        {
            if (Car is { } car)
                yield return LogSubject.Of(car);
            if (Kit is { } kit)
                yield return LogSubject.Of(kit);
            if (OfJob is { } job)
                yield return job;
        }
    }
}
