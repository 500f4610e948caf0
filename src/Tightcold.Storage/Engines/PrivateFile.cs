namespace Tightcold.Storage.Engines;

/// <summary>Files that only their owner may read (mode 600), whatever the folder allows. SQLite gives its log the mode
/// of the file it belongs to.</summary>
internal static class PrivateFile
{
    private const UnixFileMode Owner = UnixFileMode.UserRead | UnixFileMode.UserWrite;

    /// <summary>Makes an empty one where there is none: SQLite takes that for a new file, and would make one that all
    /// may read.</summary>
    public static void Make(string file)
    {
        if (OperatingSystem.IsWindows() || File.Exists(file))
            return;
        try
        {
            using var made = new FileStream(
                file,
                new FileStreamOptions
                {
                    Mode = FileMode.CreateNew,
                    Access = FileAccess.Write,
                    Share = FileShare.ReadWrite,
                    UnixCreateMode = Owner,
                }
            );
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException)
        {
            // Another program made it at this moment, or nobody can: opening it will tell.
        }
    }

    /// <summary>Takes others' rights from a file that earlier programs made.</summary>
    public static void Close(string file)
    {
        if (OperatingSystem.IsWindows() || !File.Exists(file))
            return;
        try
        {
            File.SetUnixFileMode(file, Owner);
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException)
        {
            // Somebody else's file, or a disk that knows no modes.
        }
    }
}
