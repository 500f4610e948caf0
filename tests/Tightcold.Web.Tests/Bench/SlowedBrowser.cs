using System.Diagnostics;
using System.Globalization;
using System.Runtime.InteropServices;

namespace Tightcold.Web.Tests.Bench;

/// <summary>The browser with its processor cut to a share: all its processes are stopped and let go again, in turns too short
/// to see. Unlike the browser's own brake it slows workers too.</summary>
public sealed partial class SlowedBrowser : IDisposable
{
    private const int Stop = 19,
        Continue = 18;

    private static readonly TimeSpan Turn = TimeSpan.FromMilliseconds(20);

    private readonly CancellationTokenSource ended = new();
    private readonly Thread thread;

    /// <param name="share">Of the time in which it may run, above 0 and below 1.</param>
    public SlowedBrowser(double share)
    {
        thread = new Thread(() => Slow(share)) { IsBackground = true, Priority = ThreadPriority.Highest };
        thread.Start();
    }

    /// <summary>Memory that the pages' processes hold now, bytes: resident, without what is shared with files.</summary>
    public static long PagesBytes() =>
        Browsers()
            .Where(id => Line(id).Contains("--type=renderer", StringComparison.Ordinal))
            .Select(Anonymous)
            .DefaultIfEmpty()
            .Max();

    public void Dispose()
    {
        ended.Cancel();
        thread.Join();
        ended.Dispose();
    }

    private void Slow(double share)
    {
        var clock = Stopwatch.StartNew();
        var ids = Browsers();
        for (var turn = 0; !ended.IsCancellationRequested; turn++)
        {
            if (turn % 50 == 0)
                ids = Browsers();
            Send(ids, Stop);
            Thread.Sleep((1 - share) * Turn);
            Send(ids, Continue);
            var rest = ((turn + 1) * Turn) - clock.Elapsed;
            Thread.Sleep(rest > share * Turn ? rest : share * Turn);
        }
        Send(ids, Continue);
    }

    private static void Send(int[] ids, int signal)
    {
        foreach (var id in ids)
            _ = Kill(id, signal);
    }

    /// <summary>Processes of browsers that this one started.</summary>
    private static int[] Browsers()
    {
        var parents = new Dictionary<int, int>();
        foreach (var folder in Directory.EnumerateDirectories("/proc"))
            if (int.TryParse(Path.GetFileName(folder), NumberStyles.None, CultureInfo.InvariantCulture, out var id))
                parents[id] = ParentOf(id);
        bool IsOurs(int id)
        {
            for (var at = id; parents.TryGetValue(at, out var parent); at = parent)
                if (parent == Environment.ProcessId)
                    return true;
            return false;
        }
        return [.. parents.Keys.Where(id => Line(id).Contains("chrom", StringComparison.Ordinal) && IsOurs(id))];
    }

    private static int ParentOf(int id)
    {
        // The name may hold anything, brackets too; the parent is the second word behind it.
        var text = Read($"/proc/{id}/stat");
        var words = text[(text.LastIndexOf(')') + 1)..].Split(' ', StringSplitOptions.RemoveEmptyEntries);
        return words.Length > 1 ? int.Parse(words[1], CultureInfo.InvariantCulture) : 0;
    }

    private static long Anonymous(int id)
    {
        var line = Read($"/proc/{id}/status")
            .Split('\n')
            .FirstOrDefault(one => one.StartsWith("RssAnon:", StringComparison.Ordinal));
        return line is null
            ? 0
            : 1024
                * long.Parse(
                    line.Split([' ', '\t'], StringSplitOptions.RemoveEmptyEntries)[1],
                    CultureInfo.InvariantCulture
                );
    }

    /// <summary>Its name comes first; what it is told, behind.</summary>
    private static string Line(int id) => Read($"/proc/{id}/cmdline").Split("--enable-features")[0];

    private static string Read(string file)
    {
        try
        {
            return File.ReadAllText(file);
        }
        catch (Exception gone) when (gone is IOException or UnauthorizedAccessException)
        {
            return "";
        }
    }

    [LibraryImport("libc", EntryPoint = "kill", SetLastError = true)]
    private static partial int Kill(int id, int signal);
}
