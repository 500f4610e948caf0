using Tightcold.LogStore;

namespace Tightcold.Phone;

/// <summary>What the worker that weighs knows of the journal: a copy in memory of the file that the other worker holds,
/// which tells of every byte it adds.</summary>
internal sealed class Beside : IGrowingFile
{
    private byte[] held = [];
    private int length;

    public long Length => length;

    public int Read(long at, Span<byte> into)
    {
        var count = (int)Math.Clamp(length - at, 0, into.Length);
        held.AsSpan((int)at, count).CopyTo(into);
        return count;
    }

    /// <summary>What the holder of the file added.</summary>
    public void Grow(ReadOnlySpan<byte> more)
    {
        if (length + more.Length > held.Length)
            Array.Resize(ref held, Math.Max(2 * held.Length, length + more.Length));
        more.CopyTo(held.AsSpan(length));
        length += more.Length;
    }

    public void Append(ReadOnlySpan<byte> bytes) =>
        throw new LogStoreException("This copy is only read; the entry was not written down. Send it again.");

    public void Cut(long length) => this.length = (int)length;
}
