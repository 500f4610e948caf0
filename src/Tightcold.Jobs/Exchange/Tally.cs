using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Json;
using Tightcold.Jobs.Kits;

namespace Tightcold.Jobs.Exchange;

/// <summary>One job of a tally.</summary>
/// <param name="Kits">Kits that it came with; null where the workshop's own hold for it.</param>
/// <param name="Sum">Of the job and its entries, whatever the order in which they arrived (<see
/// cref="Tally.SumOf"/>).</param>
public sealed record TalliedJob(
    Guid Id,
    ImmutableHashSet<Guid>? Kits,
    string Sum,
    ImmutableHashSet<Guid> Entries,
    ImmutableHashSet<Guid> Photos
)
{
    /// <param name="photos">Ids of all its photos.</param>
    public static TalliedJob Of(JobRecord record, IEnumerable<Guid> photos)
    {
        ArgumentNullException.ThrowIfNull(record);
        return new(
            record.Job.Id,
            record.BringsKits ? [.. record.Kits.Select(kit => kit.Id)] : null,
            Tally.SumOf(record),
            [.. record.Journal.All.Select(entry => entry.Id)],
            [.. photos]
        );
    }
}

/// <summary>What somebody holds, by ids: enough to send him what he lacks and nothing else.</summary>
public sealed class Tally(IEnumerable<CarVersion> cars, IEnumerable<Guid> kits, IEnumerable<TalliedJob> jobs)
{
    /// <summary>Of somebody who holds nothing.</summary>
    public static readonly Tally Empty = new([], [], []);

    private readonly ImmutableDictionary<Guid, CarVersion> cars = cars.ToImmutableDictionary(car => car.Id);
    private readonly ImmutableHashSet<Guid> kits = [.. kits];
    private readonly ImmutableDictionary<Guid, TalliedJob> jobs = jobs.ToImmutableDictionary(job => job.Id);

    public bool Lacks(Car car)
    {
        var version = CarVersion.Of(car);
        return cars.GetValueOrDefault(version.Id) is not { } there || CarVersion.Compare(version, there) > 0;
    }

    public bool Lacks(Kit kit)
    {
        ArgumentNullException.ThrowIfNull(kit);
        return !kits.Contains(kit.Id);
    }

    /// <summary>Whether the job is to be sent, and with which photos. A journal goes whole or not at all: only so does
    /// its chain tell whether it is as it was written.</summary>
    /// <param name="photos">Ids of all its photos.</param>
    /// <param name="own">The sender's own kits, which are sent as well.</param>
    public (bool Lacks, ImmutableArray<Guid> Photos) Lacks(
        JobRecord record,
        IEnumerable<Guid> photos,
        IEnumerable<Kit> own
    )
    {
        ArgumentNullException.ThrowIfNull(record);
        if (jobs.GetValueOrDefault(record.Job.Id) is not { } there)
            return (true, [.. photos]);
        ImmutableArray<Guid> missing = [.. photos.Where(photo => !there.Photos.Contains(photo))];
        return (missing.Length > 0 || LacksEntries(record, there) || LacksKits(record, there, own), missing);
    }

    private static bool LacksEntries(JobRecord record, TalliedJob there)
    {
        var here = record.Journal.All;
        return here.Any(entry => !there.Entries.Contains(entry.Id))
            // The same entries by name and yet another sum: one side changed something, and who takes it in says so.
            || (here.Length == there.Entries.Count && SumOf(record) != there.Sum);
    }

    private bool LacksKits(JobRecord record, TalliedJob there, IEnumerable<Kit> own) =>
        there.Kits is { } brought
            ? record.Kits.Any(kit => !brought.Contains(kit.Id))
            : record.BringsKits
                && record.Kits.Any(kit => !kits.Contains(kit.Id) && own.All(known => known.Id != kit.Id));

    /// <summary>SHA-256 over what the chain of the job begins with, and each entry as the job file has it on one line,
    /// by id, each behind a line end: two journals of the same entries have one sum.</summary>
    public static string SumOf(JobRecord record)
    {
        ArgumentNullException.ThrowIfNull(record);
        var text = new StringBuilder(JournalChain.Start(record.Job));
        foreach (var entry in record.Journal.All.OrderBy(entry => entry.Id.ToString(), StringComparer.Ordinal))
            text.Append('\n').Append(JobDocument.OnOneLine(JobDocument.WriteEntry(entry)));
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text.ToString())));
    }
}
