namespace Tightcold.LogStore.Tests;

/// <summary>A file in memory, with as much room as the test leaves it.</summary>
internal sealed class MemoryFile(params byte[] bytes) : IGrowingFile
{
    private readonly List<byte> content = [.. bytes];

    /// <summary>Bytes that fit into it.</summary>
    public long Room { get; set; } = long.MaxValue;

    /// <summary>The disk takes nothing off either.</summary>
    public bool RefusesToCut { get; set; }

    /// <summary>How often it was added to or cut.</summary>
    public int Writes { get; private set; }

    public byte[] Bytes => [.. content];

    public long Length => content.Count;

    public int Read(long at, Span<byte> into)
    {
        // Less than was asked for, as a file may give it.
        var count = (int)Math.Min(Math.Min(into.Length, 1000), Math.Max(0, content.Count - at));
        for (var i = 0; i < count; i++)
            into[i] = content[(int)at + i];
        return count;
    }

    public void Append(ReadOnlySpan<byte> bytes)
    {
        Writes++;
        var fits = (int)Math.Min(bytes.Length, Math.Max(0, Room - content.Count));
        content.AddRange(bytes[..fits]);
        if (fits < bytes.Length)
            throw new FullException();
    }

    public void Cut(long length)
    {
        if (RefusesToCut)
            throw new IOException("the disk does not answer");
        Writes++;
        content.RemoveRange((int)length, content.Count - (int)length);
    }
}

/// <summary>A file of a real disk.</summary>
internal sealed class DiskFile(string path) : IGrowingFile, IDisposable
{
    private readonly FileStream stream = new(path, FileMode.OpenOrCreate, FileAccess.ReadWrite);

    public long Length => stream.Length;

    public int Read(long at, Span<byte> into) => RandomAccess.Read(stream.SafeFileHandle, into, at);

    public void Append(ReadOnlySpan<byte> bytes)
    {
        stream.Seek(0, SeekOrigin.End);
        stream.Write(bytes);
        stream.Flush(flushToDisk: true);
    }

    public void Cut(long length)
    {
        stream.SetLength(length);
        stream.Flush(flushToDisk: true);
    }

    public void Dispose() => stream.Dispose();
}
