using Tightcold.Jobs.Journals;
using Tightcold.Storage.Engines;

namespace Tightcold.Storage.Safety;

/// <summary>What a backup or a restore that was killed leaves behind: half files. They are taken away at the next start
/// that finds the data used by nobody, so that none is taken from somebody who is still at it.</summary>
internal static class Leftovers
{
    /// <summary>Where a restore prepares its file, beside the data.</summary>
    public const string RestoreFolder = "restoring";

    /// <summary>Behind the name of a backup until it is whole.</summary>
    public const string Part = ".part";

    /// <summary>Where backups go unless said otherwise.</summary>
    public const string BackupFolder = "backups";

    public static void Clean(string folder)
    {
        try
        {
            if (!Find(folder).Any())
                return;
            using var alone = FileLock.TryAlone(folder);
            if (alone is null)
                return;
            foreach (var left in Find(folder))
                if (Directory.Exists(left))
                    Directory.Delete(left, recursive: true);
                else
                    File.Delete(left);
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException or StoreException)
        {
            // They take room and do no harm; the next start tries again.
        }
    }

    private static IEnumerable<string> Find(string folder)
    {
        var restoring = Path.Combine(folder, RestoreFolder);
        if (Directory.Exists(restoring))
            yield return restoring;
        foreach (var place in new[] { folder, Path.Combine(folder, BackupFolder) })
            if (Directory.Exists(place))
                foreach (var part in Directory.EnumerateFiles(place, "*.db" + Part + "*"))
                    yield return part;
    }
}
