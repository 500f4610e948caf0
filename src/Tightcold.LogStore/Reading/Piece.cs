using System.Collections.Immutable;
using Tightcold.LogStore.Lines;

namespace Tightcold.LogStore.Reading;

/// <summary>A part of the file as it stands.</summary>
/// <param name="At">Where it begins.</param>
internal abstract record Piece(long At)
{
    /// <summary>The first line, when it is not what it is to be.</summary>
    public sealed record Head(long At, string Text) : Piece(At);

    /// <summary>A line as it was written.</summary>
    /// <param name="BodiesAt">Where the bytes of its photos begin.</param>
    public sealed record Whole(long At, LogLine Line, long BodiesAt) : Piece(At);

    /// <summary>Bytes that are no line as it was written.</summary>
    /// <param name="Of">Whose it was, as far as a copy of that is left.</param>
    /// <param name="Number">Of the last line that ends in it; null where no end is left.</param>
    public sealed record Damaged(long At, ImmutableArray<LogSubject> Of, int? Number) : Piece(At);

    /// <summary>The end of the file, when a writing did not come to its end there.</summary>
    public sealed record Torn(long At, ImmutableArray<LogSubject> Of) : Piece(At);
}
