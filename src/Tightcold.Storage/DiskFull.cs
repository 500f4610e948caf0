namespace Tightcold.Storage;

/// <summary>Whether a file could not be written for want of room.</summary>
public static class DiskFull
{
    /// <summary>ENOSPC and EDQUOT of Linux (errno.h), ENOSPC of macOS being the same; ERROR_HANDLE_DISK_FULL and
    /// ERROR_DISK_FULL of Windows (winerror.h).</summary>
    public static bool Is(IOException trouble)
    {
        ArgumentNullException.ThrowIfNull(trouble);
        return trouble.HResult is 28 or 122 or unchecked((int)0x80070027) or unchecked((int)0x80070070);
    }
}
