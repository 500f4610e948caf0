using System.Collections.Immutable;
using Tightcold.Quantities;

namespace Tightcold.Storage.Safety;

/// <summary>What a check read, and what it found.</summary>
/// <param name="Damage">Wrong with the file or its tables: not to be relied on any more.</param>
/// <param name="Unreadable">Cars and jobs that cannot be read.</param>
/// <param name="Troubles">What can be read and still wants a look: rows that belong to nothing, books that do not
/// close.</param>
public sealed record CheckReport(
    int Cars,
    int Jobs,
    int Entries,
    ImmutableArray<Phrase> Damage,
    ImmutableArray<Phrase> Unreadable,
    ImmutableArray<Phrase> Troubles
)
{
    public bool IsClean => Damage.Length + Unreadable.Length + Troubles.Length == 0;

    /// <summary>Everything found, the worst first.</summary>
    public IEnumerable<Phrase> Says => [.. Damage, .. Unreadable, .. Troubles];

    /// <summary>The same in English.</summary>
    public IEnumerable<string> All => Says.Select(sentence => sentence.ToString());
}

/// <summary>A copy that was made and read again.</summary>
/// <param name="Check">What the check of the copy said; troubles in it are those of the data themselves.</param>
public sealed record BackupReport(string File, long Bytes, CheckReport Check);

/// <summary>Data that were put in the place of others.</summary>
/// <param name="KeptAs">Where the data from before are; null when there were none.</param>
public sealed record RestoreReport(string Place, string? KeptAs, CheckReport Check);
