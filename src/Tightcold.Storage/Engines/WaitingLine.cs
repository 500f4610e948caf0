using System.Diagnostics;

namespace Tightcold.Storage.Engines;

/// <summary>Places for so many at once; who comes later waits, first come, first served. A long line that moves is
/// waited out; one in which nobody moves for long is left.</summary>
/// <param name="patience">So long nobody moves before those who wait are turned away.</param>
internal sealed class WaitingLine(int places, TimeSpan patience)
{
    private readonly Lock door = new();
    private readonly LinkedList<TaskCompletionSource> waiting = new();
    private int free = places;
    private long lastMove = Stopwatch.GetTimestamp();

    /// <summary>A place, given back when disposed; null when nobody moved for too long.</summary>
    public async Task<Place?> EnterAsync(CancellationToken cancellation)
    {
        cancellation.ThrowIfCancellationRequested();
        var came = Stopwatch.GetTimestamp();
        LinkedListNode<TaskCompletionSource> mine;
        lock (door)
        {
            if (free > 0)
            {
                free--;
                return new Place(this);
            }
            mine = waiting.AddLast(new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously));
        }
        while (true)
        {
            try
            {
                var left = patience - Stood(came);
                await mine
                    .Value.Task.WaitAsync(left > TimeSpan.Zero ? left : TimeSpan.Zero, cancellation)
                    .ConfigureAwait(false);
                return new Place(this);
            }
            catch (OperationCanceledException)
            {
                if (!Leave(mine))
                    Next();
                throw;
            }
            catch (TimeoutException)
            {
                // Somebody may have moved meanwhile, and the place may be mine at this very moment.
                if (Stood(came) < patience)
                    continue;
                return Leave(mine) ? null : new Place(this);
            }
        }
    }

    private TimeSpan Stood(long since) => Stopwatch.GetElapsedTime(Math.Max(since, Volatile.Read(ref lastMove)));

    /// <returns>False when the place was given already.</returns>
    private bool Leave(LinkedListNode<TaskCompletionSource> mine)
    {
        lock (door)
        {
            if (mine.List is null)
                return false;
            waiting.Remove(mine);
            return true;
        }
    }

    private void Next()
    {
        lock (door)
        {
            if (waiting.First is not { } next)
            {
                free++;
                return;
            }
            waiting.RemoveFirst();
            next.Value.SetResult();
        }
    }

    private void Left(bool inVain)
    {
        if (!inVain)
            Volatile.Write(ref lastMove, Stopwatch.GetTimestamp());
        Next();
    }

    /// <summary>A place in use, given back when disposed.</summary>
    internal sealed class Place(WaitingLine line) : IDisposable
    {
        /// <summary>It came to nothing, and the next would fare no better: that is no move of the line.</summary>
        public bool InVain { get; set; }

        /// <summary>A place in another line, which goes with this one.</summary>
        public IDisposable? Beside { get; set; }

        public void Dispose()
        {
            Beside?.Dispose();
            line.Left(InVain);
        }
    }
}
