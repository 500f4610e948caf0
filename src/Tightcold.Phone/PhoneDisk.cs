using System.Runtime.InteropServices.JavaScript;
using Tightcold.LogStore;

namespace Tightcold.Phone;

/// <summary>The journal's one file in the browser's own storage (storage.js): what was appended is on the disk before the
/// answer goes out that tells of it.</summary>
internal sealed partial class PhoneDisk : IGrowingFile
{
    public long Length => (long)Size();

    public int Read(long at, Span<byte> into) => ReadAt(at, into);

    public void Append(ReadOnlySpan<byte> bytes)
    {
        // The browser's call wants memory that it may not change; it does not.
        var copy = bytes.ToArray();
        if (!Add(copy.AsSpan()))
            throw new FullException();
    }

    public void Cut(long length) => CutTo(length);

    [JSImport("size", "disk")]
    private static partial double Size();

    [JSImport("read", "disk")]
    private static partial int ReadAt(double at, [JSMarshalAs<JSType.MemoryView>] Span<byte> into);

    /// <returns>False when there was no room.</returns>
    [JSImport("append", "disk")]
    private static partial bool Add([JSMarshalAs<JSType.MemoryView>] Span<byte> bytes);

    [JSImport("cut", "disk")]
    private static partial void CutTo(double length);
}
