using Tightcold.Jobs.Journals;
using System.Diagnostics;
using System.Globalization;
using Tightcold.App.Desk;
using Tightcold.Jobs.Entries;
using Tightcold.Storage;

namespace Tightcold.Trials.Long;

/// <summary>Two programs write into one data file as fast as they can: how long each waits for its turn.</summary>
internal static class TwoWriters
{
    public static async Task<bool> RunAsync(int seconds, TextWriter to)
    {
        using var place = new Workplace();
        await Workplace.FillAsync(place.Data, 2).ConfigureAwait(false);
        JobStore.Release();
        var programs = Enumerable
            .Range(0, 2)
            .Select(_ =>
            {
                var start = new ProcessStartInfo("dotnet") { RedirectStandardOutput = true };
                start.ArgumentList.Add(typeof(TwoWriters).Assembly.Location);
                foreach (var word in new[] { "write", place.Data, seconds.ToString(CultureInfo.InvariantCulture) })
                    start.ArgumentList.Add(word);
                return Process.Start(start)!;
            })
            .ToList();
        foreach (var program in programs)
        {
            await to.WriteAsync(await program.StandardOutput.ReadToEndAsync().ConfigureAwait(false))
                .ConfigureAwait(false);
            await program.WaitForExitAsync().ConfigureAwait(false);
        }
        var troubles = await Workplace.TroublesAsync(place.Data).ConfigureAwait(false);
        var held = programs.All(program => program.ExitCode == 0) && troubles.Count == 0;
        programs.ForEach(program => program.Dispose());
        return held;
    }

    /// <summary>One of the two; four tasks each, so that somebody always waits in both.</summary>
    public static async Task<bool> WriteAsync(string folder, int seconds, TextWriter to)
    {
        using var store = await JobStore.OpenAsync(folder).ConfigureAwait(false);
        var desk = new JobDesk(store, TimeProvider.System, new RandomIds());
        // The first takes what only the start takes.
        await NoteAsync(desk, 1).ConfigureAwait(false);
        var took = new System.Collections.Concurrent.ConcurrentBag<double>();
        var failed = 0;
        var began = Stopwatch.StartNew();
        await Task.WhenAll(
                Enumerable
                    .Range(0, 4)
                    .Select(i =>
                        Task.Run(async () =>
                        {
                            while (began.Elapsed.TotalSeconds < seconds)
                            {
                                var since = Stopwatch.GetTimestamp();
                                try
                                {
                                    await NoteAsync(desk, 1 + i % 2).ConfigureAwait(false);
                                    took.Add(Stopwatch.GetElapsedTime(since).TotalMilliseconds);
                                }
                                catch (StoreException trouble)
                                {
                                    Interlocked.Increment(ref failed);
                                    await to.WriteLineAsync(trouble.Message).ConfigureAwait(false);
                                }
                            }
                        })
                    )
            )
            .ConfigureAwait(false);
        var sorted = took.Order().ToArray();
        await to.WriteLineAsync(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{sorted.Length} entries, {failed} refused; p50 {At(sorted, 0.5):0.0}, p95 {At(sorted, 0.95):0.0}, longest {sorted[^1]:0} ms"
                )
            )
            .ConfigureAwait(false);
        return failed == 0;
    }

    private static async Task NoteAsync(JobDesk desk, int job) =>
        await desk.AddEntryAsync(
                job,
                EntryKinds.Note,
                new Dictionary<string, string> { ["text"] = "a note" },
                null,
                "Ada"
            )
            .ConfigureAwait(false);

    private static double At(double[] sorted, double share) =>
        sorted[Math.Min(sorted.Length - 1, (int)Math.Ceiling(share * sorted.Length) - 1)];
}
