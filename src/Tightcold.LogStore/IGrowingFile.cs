namespace Tightcold.LogStore;

/// <summary>The one file that the log is kept in, as a browser or a disk gives it. It is synchronous because the file
/// of a browser that can be added to in place, and says when the bytes are on the disk, is; and because what cannot be
/// interrupted cannot be seen half done by a call that comes in between.</summary>
public interface IGrowingFile
{
    /// <summary>Bytes in it.</summary>
    long Length { get; }

    /// <summary>Reads what stands at an offset, as much of it as comes at once.</summary>
    /// <returns>How many bytes; 0 only at the end of the file.</returns>
    int Read(long at, Span<byte> into);

    /// <summary>Adds at the end, and returns when the bytes are on the disk. What stays behind of an adding that failed
    /// is cut by the caller.</summary>
    /// <exception cref="FullException">There was no room.</exception>
    void Append(ReadOnlySpan<byte> bytes);

    /// <summary>Takes off what is behind that length, and returns when that is on the disk.</summary>
    void Cut(long length);
}
