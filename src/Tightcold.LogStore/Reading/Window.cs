using Tightcold.LogStore.Lines;

namespace Tightcold.LogStore.Reading;

/// <summary>A stretch of the file that may be a line: from one line's end to the next, or to where another line begins
/// although no end stands before it.</summary>
/// <param name="Next">Where the one behind it begins.</param>
/// <param name="IsLast">The file ends with it, without a line's end.</param>
internal readonly record struct Stretch(long At, int Length, long Next, bool IsLast);

/// <summary>The part of the file that is in memory while it is read from its beginning to its end.</summary>
internal sealed class Window(IGrowingFile file)
{
    private const int FirstSize = 1 << 18;

    private byte[] buffer = new byte[FirstSize];
    private long start;
    private int filled;

    public ReadOnlySpan<byte> Bytes(Stretch stretch) => buffer.AsSpan((int)(stretch.At - start), stretch.Length);

    /// <summary>The stretch that begins there; null at the end of the file.</summary>
    public Stretch? StretchAt(long at)
    {
        if (at < start || at > start + filled)
            (start, filled) = (at, 0);
        for (var searched = 0; ; )
        {
            var there = buffer.AsSpan((int)(at - start), filled - (int)(at - start));
            for (var i = searched; i < there.Length; i++)
            {
                var next = there[i..].IndexOfAny((byte)'\n', LogLine.Begin[0]);
                if (next < 0)
                    break;
                i += next;
                if (there[i] == (byte)'\n')
                    return new(at, i, at + i + 1, false);
                if (i > 0 && there[i..].StartsWith(LogLine.Begin))
                    return new(at, i, at + i, false);
            }
            if (there.Length > LogLine.MostBytes)
                return new(at, there.Length, at + there.Length, false);
            // The beginning of a line may stand across the end of what was read.
            searched = Math.Max(0, there.Length - LogLine.Begin.Length);
            if (!Fill(at))
                return there.IsEmpty ? null : new(at, there.Length, at + there.Length, true);
        }
    }

    /// <summary>Reads on, and lets go of what stands before that place.</summary>
    private bool Fill(long keep)
    {
        buffer.AsSpan((int)(keep - start), filled - (int)(keep - start)).CopyTo(buffer);
        filled -= (int)(keep - start);
        start = keep;
        if (filled == buffer.Length)
            Array.Resize(ref buffer, buffer.Length * 2);
        var came = file.Read(start + filled, buffer.AsSpan(filled));
        filled += came;
        return came > 0;
    }
}
