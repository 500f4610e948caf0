using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;

namespace Tightcold.Bench.Host;

/// <summary>How long answers took, by what was asked, and the processor time of the whole program for each: that one
/// does not depend on what else the machine does, and means something where questions come one after the
/// other.</summary>
internal sealed class Timings
{
    private readonly ConcurrentDictionary<string, ConcurrentBag<(double Milliseconds, double Processor)>> taken = new();

    private static double Processor() => Environment.CpuUsage.TotalTime.TotalMilliseconds;

    public async Task<T> TakeAsync<T>(string what, Func<Task<T>> ask)
    {
        var (start, processor) = (Stopwatch.GetTimestamp(), Processor());
        var answer = await ask().ConfigureAwait(false);
        taken.GetOrAdd(what, _ => []).Add((Stopwatch.GetElapsedTime(start).TotalMilliseconds, Processor() - processor));
        return answer;
    }

    public int Count => taken.Values.Sum(times => times.Count);

    public void Write(TextWriter to, bool processor = true)
    {
        to.WriteLine(
            "| asked | times | p50, ms | p95, ms | longest, ms |"
                + (processor ? " processor p50, ms | processor p95, ms |" : "")
        );
        to.WriteLine("|---|---|---|---|---|" + (processor ? "---|---|" : ""));
        foreach (var (what, times) in taken.OrderBy(pair => pair.Key, StringComparer.Ordinal))
        {
            double[] walls = [.. times.Select(time => time.Milliseconds).Order()],
                work = [.. times.Select(time => time.Processor).Order()];
            static double At(double[] sorted, double share) =>
                sorted[Math.Min(sorted.Length - 1, (int)Math.Ceiling(share * sorted.Length) - 1)];
            to.WriteLine(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"| {what} | {walls.Length} | {At(walls, 0.5):0.0} | {At(walls, 0.95):0.0} | {walls[^1]:0.0} |"
                )
                    + (
                        processor
                            ? string.Create(
                                CultureInfo.InvariantCulture,
                                $" {At(work, 0.5):0.0} | {At(work, 0.95):0.0} |"
                            )
                            : ""
                    )
            );
        }
    }
}
