using System.Collections.Immutable;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Json;

namespace Tightcold.Jobs.Journals;

/// <summary>One link: an entry, and what stands for it and all before it.</summary>
/// <param name="Digest">64 hexadecimal digits.</param>
public sealed record ChainLink(Guid Entry, string Digest);

/// <summary>Each entry's digest covers the one before it, in the order in which they arrived in this journal: nobody
/// can change an entry, take one out or put one between without changing every digest after it. Arrival and not
/// observing, because what arrived stays where it is, whenever an older reading comes in from another device.
/// The digest is SHA-256 over the digest before, a line end, and the entry as one line of the job file; the first one
/// stands on the job itself.</summary>
public static class JournalChain
{
    private const string Name = "tightcold-chain-1";

    private static readonly JsonSerializerOptions Plain = new()
    {
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    /// <summary>What the first entry stands on: the job without its number, which is each workshop's own.</summary>
    public static string Start(Job job)
    {
        ArgumentNullException.ThrowIfNull(job);
        return Digest(
            string.Join(
                '\n',
                Name,
                job.Id.ToString(),
                job.CarId.ToString(),
                JobDocument.Stamp(job.OpenedAt),
                job.Seed.ToString(CultureInfo.InvariantCulture),
                job.Complaint
            )
        );
    }

    public static string Next(string before, Entry entry) =>
        Digest(before + "\n" + JobDocument.WriteEntry(entry).ToJsonString(Plain));

    /// <summary>The chain of entries that arrived in this order.</summary>
    public static ImmutableArray<ChainLink> Of(Job job, IEnumerable<Entry> inArrival)
    {
        ArgumentNullException.ThrowIfNull(inArrival);
        var digest = Start(job);
        return [.. inArrival.Select(entry => new ChainLink(entry.Id, digest = Next(digest, entry)))];
    }

    /// <summary>The first link that does not fit the entry it names; null when all do.</summary>
    public static ChainLink? Broken(JobRecord record)
    {
        ArgumentNullException.ThrowIfNull(record);
        var digest = Start(record.Job);
        foreach (var link in record.Chain)
        {
            if (record.Journal.Find(link.Entry) is not { } entry || (digest = Next(digest, entry)) != link.Digest)
                return link;
        }
        return null;
    }

    /// <summary>As a card shows it: enough to tell two records apart, short enough to be compared by eye.</summary>
    public static string OnCard(string digest)
    {
        ArgumentNullException.ThrowIfNull(digest);
        return digest.Length < 16 ? digest : $"{digest[..4]}-{digest[4..8]}-{digest[8..12]}-{digest[12..16]}";
    }

    private static string Digest(string text) =>
        Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)));
}
