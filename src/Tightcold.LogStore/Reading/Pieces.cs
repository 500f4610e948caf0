using System.Text;
using Tightcold.LogStore.Lines;

namespace Tightcold.LogStore.Reading;

/// <summary>Takes a file of any bytes apart into lines that are as they were written, and what is between.</summary>
internal static class Pieces
{
    /// <summary>A newer version may say more in the first line than this one.</summary>
    private const int MostOfHead = 1000;

    /// <param name="file">Of any bytes.</param>
    /// <param name="from">Where a line begins; 0 for the whole file.</param>
    public static IEnumerable<Piece> Of(IGrowingFile file, long from = 0)
    {
        var window = new Window(file);
        var at = from;
        while (window.StretchAt(at) is { } stretch)
        {
            if (at == 0 && Head(window, stretch) is var (head, behind))
            {
                if (head is not null)
                    yield return head;
                if (head is Piece.Torn)
                    yield break;
                if (behind > 0)
                {
                    at = behind;
                    continue;
                }
            }
            var (piece, next) = Line(window, stretch, file.Length);
            yield return piece;
            if (piece is Piece.Torn)
                yield break;
            at = next;
        }
    }

    /// <summary>The first line: nothing to say where it is as it is to be.</summary>
    private static (Piece? Piece, long Behind) Head(Window window, Stretch stretch)
    {
        var bytes = window.Bytes(stretch);
        // What the file is may have got lost, and its first line of data not.
        if (bytes.StartsWith(LogLine.Begin))
            return (new Piece.Head(0, ""), 0);
        var text = Encoding.UTF8.GetString(bytes[..Math.Min(bytes.Length, MostOfHead)]);
        if (stretch.IsLast && LogLine.Head.StartsWith(text, StringComparison.Ordinal))
            return (new Piece.Torn(0, []), stretch.Next);
        return (text == LogLine.Head && stretch.Next > stretch.Length ? null : new Piece.Head(0, text), stretch.Next);
    }

    private static (Piece Piece, long Next) Line(Window window, Stretch stretch, long fileLength)
    {
        var bytes = window.Bytes(stretch);
        if (LogLine.Read(bytes) is not var (line, length))
        {
            var of = LogLine.Owners(bytes);
            return (
                stretch.IsLast
                    ? new Piece.Torn(stretch.At, of)
                    : new Piece.Damaged(stretch.At, of, LogLine.NumberIn(bytes)),
                stretch.Next
            );
        }
        // A line whose end is another letter ends all the same; one without any was not written to its end.
        var behind = length < bytes.Length ? stretch.At + length + 1 : stretch.Next;
        var next = behind + (line.Act?.Photos.Sum(photo => photo.TextLength + 1) ?? 0);
        return (stretch.IsLast && length == bytes.Length) || next > fileLength
            ? (new Piece.Torn(stretch.At, line.Of), next)
            : (new Piece.Whole(stretch.At, line, behind), next);
    }
}
