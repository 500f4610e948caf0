using System.Diagnostics;
using System.Globalization;
using Tightcold.App.Demo;
using Tightcold.Findings;
using Tightcold.Jobs.Journals;
using Tightcold.LogStore;
using Tightcold.Picture;

namespace Tightcold.Bench.Diagnosing;

/// <summary>
/// What a page of the demo's job costs after each of its entries, part by part: once from nothing, as at the first page of
/// a sitting, and once with the picture of the entry before at hand, as on the way through the job.
/// </summary>
internal static class PictureSpread
{
    private static readonly (string Name, Action<JobPicture> Ask)[] Parts =
    [
        ("mass", picture => _ = picture.Mass),
        ("hold", picture => _ = picture.Hold),
        ("cold", picture => _ = picture.Cold),
        ("leaks", picture => _ = picture.Leaks),
        ("next", picture => _ = picture.Leaks.Belief.Next),
        ("now", picture => _ = picture.Now),
        ("words", picture => _ = Walk.Of(picture)),
    ];

    public static async Task WriteAsync(TextWriter to)
    {
        var store = JobLog.Open(new MemoryFile());
        var number = await DemoScenario.PlayAsync(store, null, CancellationToken.None).ConfigureAwait(false);
        var record = (await store.RecordAsync(number, CancellationToken.None).ConfigureAwait(false))!;
        var after = Enumerable
            .Range(1, record.Journal.All.Length)
            .Select(count => record with { Journal = Journal.Create(record.Journal.All.Take(count)).Journal! })
            .ToArray();
        // Twice first, so that nothing is compiled while the clock runs.
        for (var i = 0; i < 2; i++)
            _ = Times(after, alone: i == 0);
        Table(to, "from nothing", after, Times(after, alone: true));
        Table(to, "with the picture before", after, Times(after, alone: false));
    }

    private static double[][] Times(JobRecord[] after, bool alone)
    {
        var times = new double[after.Length][];
        JobPicture? before = null;
        for (var i = 0; i < after.Length; i++)
        {
            var picture = new JobPicture(after[i], before: alone ? null : before, atAGlance: true);
            times[i] =
            [
                .. Parts.Select(part =>
                {
                    var start = Stopwatch.GetTimestamp();
                    part.Ask(picture);
                    return Stopwatch.GetElapsedTime(start).TotalMilliseconds;
                }),
            ];
            before = picture;
        }
        return times;
    }

    private static void Table(TextWriter to, string what, JobRecord[] after, double[][] times)
    {
        to.WriteLine($"{what}, ms at a glance");
        to.WriteLine($"{"after", -18}{string.Concat(Parts.Select(part => $"{part.Name, 8}"))}{"all", 8}");
        for (var i = 0; i < after.Length; i++)
            to.WriteLine(
                $"{after[i].Journal.All[^1].Kind, -18}"
                    + string.Concat(
                        times[i]
                            .Append(times[i].Sum())
                            .Select(ms => string.Create(CultureInfo.InvariantCulture, $"{ms, 8:F1}"))
                    )
            );
    }

    private sealed class MemoryFile : IGrowingFile
    {
        private readonly MemoryStream held = new();

        public long Length => held.Length;

        public int Read(long at, Span<byte> into)
        {
            held.Position = at;
            return held.Read(into);
        }

        public void Append(ReadOnlySpan<byte> bytes)
        {
            held.Position = held.Length;
            held.Write(bytes);
        }

        public void Cut(long length) => held.SetLength(length);
    }
}
