using System.Collections.Immutable;

namespace Tightcold.LogStore.Lines;

/// <summary>What a line says of where it stands.</summary>
/// <param name="Number">Counted from 1.</param>
/// <param name="Before">What its digest stands on.</param>
/// <param name="After">Whose the line before is.</param>
internal sealed record LinePlace(int Number, string Before, ImmutableArray<LogSubject> After)
{
    /// <summary>Behind the head of the file.</summary>
    public static readonly LinePlace First = new(1, LogLine.HeadDigest, []);
}
