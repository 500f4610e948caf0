using Tightcold.Jobs.Journals;
using Tightcold.Quantities;

namespace Tightcold.Storage.Engines;

/// <summary>A lock among programs on this machine. The system gives it back when its holder ends, however it
/// ends.</summary>
internal sealed class FileLock : IDisposable
{
    private const string UseName = "tightcold.lock";
    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(50);

    private readonly FileStream held;

    private FileLock(FileStream held) => this.held = held;

    public void Dispose() => held.Dispose();

    /// <summary>Says that the data of this folder are in use, beside others who use them. Null where the folder cannot
    /// be written to: nothing can be put in the place of such data either.</summary>
    public static async Task<FileLock?> UseAsync(string folder, CancellationToken cancellation)
    {
        var path = Path.Combine(folder, UseName);
        var until = DateTime.UtcNow + TimeSpan.FromSeconds(30);
        while (true)
        {
            try
            {
                return new(new FileStream(path, FileMode.OpenOrCreate, FileAccess.Read, FileShare.ReadWrite));
            }
            catch (UnauthorizedAccessException)
            {
                return null;
            }
            catch (IOException) when (DateTime.UtcNow < until && File.Exists(path))
            {
                await Task.Delay(Pause, cancellation).ConfigureAwait(false);
            }
            catch (IOException)
            {
                return File.Exists(path)
                    ? throw new StoreException(
                        Phrase.Of(
                            $"The data in {Phrase.Verbatim(folder)} are being restored by another program; wait until it is done."
                        )
                    )
                    : null;
            }
        }
    }

    /// <summary>The data of this folder to oneself, or null when somebody uses them.</summary>
    public static FileLock? TryAlone(string folder) => TryAloneAt(Path.Combine(folder, UseName));

    /// <summary>Waits until the lock is one's own.</summary>
    public static async Task<FileLock> AloneAsync(string path, TimeSpan patience, CancellationToken cancellation)
    {
        for (var until = DateTime.UtcNow + patience; ; await Task.Delay(Pause, cancellation).ConfigureAwait(false))
        {
            if (TryAloneAt(path) is { } held)
                return held;
            if (DateTime.UtcNow > until)
                throw new StoreException(
                    Phrase.Of(
                        $"Another Tightcold has been upgrading the data beside {Phrase.Verbatim(path)} for long; wait until it is "
                            + $"done, or end it."
                    )
                );
        }
    }

    /// <summary>The lock at once, or null when another holds it.</summary>
    public static FileLock? TryAloneAt(string path)
    {
        try
        {
            return new(new FileStream(path, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None));
        }
        catch (UnauthorizedAccessException trouble)
        {
            throw new StoreException(
                Phrase.Of(
                    $"The folder {Phrase.Verbatim(Path.GetDirectoryName(path) ?? path)} is read-only; make it writable or choose "
                        + $"another folder with --data."
                ),
                trouble
            );
        }
        catch (IOException) when (File.Exists(path))
        {
            return null;
        }
        catch (IOException trouble)
        {
            throw new StoreException(
                Phrase.Of(
                    $"The folder {Phrase.Verbatim(Path.GetDirectoryName(path) ?? path)} cannot be written to; make it writable or "
                        + $"choose another folder with --data."
                ),
                trouble
            );
        }
    }
}
