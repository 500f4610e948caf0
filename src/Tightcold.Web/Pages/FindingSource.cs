using System.Collections.Concurrent;
using System.Collections.Immutable;
using Tightcold.Findings;
using Tightcold.Jobs.Journals;

namespace Tightcold.Web.Pages;

/// <summary>The findings of a record, weighed once for each state of the journal: leaks and faults cost some tenths of a
/// second. A cache and no truth: findings are a pure function of what is compared here.</summary>
internal sealed class FindingSource(Func<JobRecord, ImmutableArray<Finding>> of)
{
    /// <summary>Jobs kept; when full, all go and the next question weighs again.</summary>
    private const int MostJobs = 64;

    private readonly ConcurrentDictionary<Guid, (JobRecord Record, ImmutableArray<Finding> Findings)> known = new();

    public ImmutableArray<Finding> Of(JobRecord record)
    {
        if (known.TryGetValue(record.Job.Id, out var there) && Same(there.Record, record)) return there.Findings;
        var findings = of(record);
        if (known.Count >= MostJobs) known.Clear();
        known[record.Job.Id] = (record, findings);
        return findings;
    }

    /// <summary>Entries and kits never change under their id; a car's label data may.</summary>
    private static bool Same(JobRecord left, JobRecord right) =>
        left.Job == right.Job && left.Car == right.Car
        && left.Kits.Select(kit => (kit.Id, kit.From)).SequenceEqual(right.Kits.Select(kit => (kit.Id, kit.From)))
        && left.Journal.All.Select(entry => entry.Id).SequenceEqual(right.Journal.All.Select(entry => entry.Id));
}
