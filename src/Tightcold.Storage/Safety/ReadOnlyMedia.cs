using Microsoft.Data.Sqlite;
using Tightcold.Storage.Engines;

namespace Tightcold.Storage.Safety;

/// <summary>Data on a disk that takes nothing: a stick with its switch on, a backup mounted to look at. SQLite needs a
/// log beside its file even to read one; so a copy is read instead, brought up to date where it must be, and the file
/// itself is not touched.</summary>
internal static class ReadOnlyMedia
{
    /// <summary>Whether the trouble is that nothing can be written there: asked of the folder itself, with a file of
    /// its own, for nobody but SQLite may open the data file while it is in use (sqlite.org/howtocorrupt.html,
    /// 2.2).</summary>
    public static bool IsCause(Exception trouble, string folder)
    {
        if (
            trouble is { InnerException: SqliteException { SqliteErrorCode: not (8 or 10 or 14) } }
            || trouble.InnerException is not (SqliteException or IOException or UnauthorizedAccessException)
            || !File.Exists(DataFolder.DataFile(folder))
            || new FileInfo(DataFolder.DataFile(folder)).Length == 0
        )
            return false;
        try
        {
            using var probe = new FileStream(
                Path.Combine(folder, $".tightcold-{Guid.NewGuid():N}"),
                new FileStreamOptions
                {
                    Mode = FileMode.CreateNew,
                    Access = FileAccess.Write,
                    Options = FileOptions.DeleteOnClose,
                }
            );
            return false;
        }
        catch (UnauthorizedAccessException)
        {
            return true;
        }
        catch (IOException full)
        {
            return !DiskFull.Is(full);
        }
    }

    /// <summary>The data as they stand there, to be read only.</summary>
    public static async Task<JobStore> OpenAsync(string folder, CancellationToken cancellation)
    {
        var own = Directory.CreateTempSubdirectory("tightcold-reading-").FullName;
        try
        {
            var copy = DataFolder.DataFile(own);
            foreach (var end in new[] { "", "-wal" })
                if (File.Exists(DataFolder.DataFile(folder) + end))
                    File.Copy(DataFolder.DataFile(folder) + end, copy + end);
            // The copy has the mode of the disk, on which nothing may be written.
            foreach (var file in Directory.EnumerateFiles(own))
                PrivateFile.Close(file);
            using (
                await JobStore
                    .PreparedAsync(new SqliteEngine(copy, shownAs: DataFolder.DataFile(folder)), cancellation)
                    .ConfigureAwait(false)
            ) { }
            return new JobStore(new SqliteEngine(copy, readOnly: true, shownAs: DataFolder.DataFile(folder)), () =>
                Directory.Delete(own, recursive: true)
            );
        }
        catch
        {
            Directory.Delete(own, recursive: true);
            throw;
        }
    }
}
