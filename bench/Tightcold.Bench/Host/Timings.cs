using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;

namespace Tightcold.Bench.Host;

/// <summary>How long answers took, by what was asked.</summary>
internal sealed class Timings
{
    private readonly ConcurrentDictionary<string, ConcurrentBag<double>> taken = new();

    public async Task<T> TakeAsync<T>(string what, Func<Task<T>> ask)
    {
        var start = Stopwatch.GetTimestamp();
        var answer = await ask().ConfigureAwait(false);
        taken.GetOrAdd(what, _ => []).Add(Stopwatch.GetElapsedTime(start).TotalMilliseconds);
        return answer;
    }

    public int Count => taken.Values.Sum(times => times.Count);

    public void Write(TextWriter to)
    {
        to.WriteLine("| asked | times | p50, ms | p95, ms | longest, ms |");
        to.WriteLine("|---|---|---|---|---|");
        foreach (var (what, times) in taken.OrderBy(pair => pair.Key, StringComparer.Ordinal))
        {
            var sorted = times.Order().ToArray();
            double At(double share) => sorted[Math.Min(sorted.Length - 1, (int)Math.Ceiling(share * sorted.Length) - 1)];
            to.WriteLine(string.Create(CultureInfo.InvariantCulture, $"| {what} | {sorted.Length} | {At(0.5):0.0} | {At(0.95):0.0} | {sorted[^1]:0.0} |"));
        }
    }
}
