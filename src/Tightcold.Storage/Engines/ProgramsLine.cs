using Tightcold.Jobs.Journals;
using System.Diagnostics;

namespace Tightcold.Storage.Engines;

/// <summary>Writers of several programs on one data file, in turn. Two locks of the file system: one for who writes,
/// one for who is next. Whoever waits is next already, so a program that has just written comes after it, however fast
/// it asks again; of two, each gets every second turn. The system gives both back when their holder ends, however it
/// ends.</summary>
internal sealed class ProgramsLine(string dataFile)
{
    public const string TurnMark = ".turn",
        NextMark = ".next";

    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(1);

    /// <summary>A turn, given back when disposed; null when none came in time. Where the locks cannot be made the line
    /// is left out: SQLite itself lets one writer in at a time.</summary>
    public async Task<IDisposable?> EnterAsync(TimeSpan patience, CancellationToken cancellation)
    {
        var came = Stopwatch.GetTimestamp();
        try
        {
            using var next = await TakeAsync(dataFile + NextMark, came, patience, cancellation).ConfigureAwait(false);
            return next is null
                ? null
                : await TakeAsync(dataFile + TurnMark, came, patience, cancellation).ConfigureAwait(false);
        }
        catch (StoreException)
        {
            return new Nothing();
        }
    }

    private static async Task<FileLock?> TakeAsync(
        string path,
        long came,
        TimeSpan patience,
        CancellationToken cancellation
    )
    {
        while (true)
        {
            if (FileLock.TryAloneAt(path) is { } held)
                return held;
            if (Stopwatch.GetElapsedTime(came) > patience)
                return null;
            await Task.Delay(Pause, cancellation).ConfigureAwait(false);
        }
    }

    private sealed class Nothing : IDisposable
    {
        public void Dispose() { }
    }
}
