using System.Collections.Immutable;
using Tightcold.App.Desk;
using Tightcold.Jobs.Journals;
using Tightcold.Picture;
using Tightcold.Picture.Books;

namespace Tightcold.Pages.Answering;

/// <summary>The ledger's lines of every job, drawn up once and again where a job changed: a workshop of years has more
/// of them than can be folded while a page is waited for. A cache and no truth, empty at each start.</summary>
internal sealed class LedgerBooks(JobDesk desk, TimeSpan patience) : IDisposable
{
    /// <summary>More changed jobs than these are read with all others, in one go.</summary>
    private const int FewChanged = 50;

    /// <summary>Records folded at once.</summary>
    private const int Batch = 200;

    private readonly SemaphoreSlim turn = new(1);
    private readonly CancellationTokenSource ended = new();
    private Dictionary<int, (string Stamp, ImmutableArray<LedgerLine> Lines)> known = [];
    private Task<LedgerSight>? drawing;
    private LedgerSight? last;
    private string kits = "";
    private int done;

    /// <summary>The books as they stand; null while they are being drawn up for the first time, or after a change of
    /// the kit, and <paramref name="cancellation"/> or the patience of a page would end before.</summary>
    public async Task<LedgerSight?> SoonAsync(CancellationToken cancellation)
    {
        await turn.WaitAsync(cancellation).ConfigureAwait(false);
        Task<LedgerSight> drawn;
        try
        {
            if (drawing is { IsCompleted: true })
                drawing = null;
            if (drawing is null)
            {
                var version = await desk.VersionAsync(cancellation).ConfigureAwait(false);
                if (last is { } there && there.Version == version)
                    return there;
                // To its end, even when the asker leaves: the next one asks the same.
                drawing = Task.Run(() => DrawAsync(version, ended.Token), CancellationToken.None);
            }
            drawn = drawing;
        }
        finally
        {
            turn.Release();
        }
        return await Task.WhenAny(drawn, Task.Delay(patience, cancellation)).ConfigureAwait(false) == drawn
            ? await drawn.ConfigureAwait(false)
            : null;
    }

    /// <summary>How many jobs were folded of those that are being drawn up.</summary>
    public int Done => Volatile.Read(ref done);

    private async Task<LedgerSight> DrawAsync(long version, CancellationToken cancellation)
    {
        done = 0;
        var stamps = await desk.StampsAsync(cancellation).ConfigureAwait(false);
        var own = string.Join(
            ' ',
            (await desk.KitsAsync(cancellation).ConfigureAwait(false)).Select(kit => kit.Id.ToString())
        );
        var leftOut = new List<string>();
        var lines = own == kits ? known : [];
        var changed = stamps
            .Where(stamp => !lines.TryGetValue(stamp.Key, out var there) || there.Stamp != stamp.Value)
            .Select(stamp => stamp.Key)
            .ToList();
        // What cannot be read is said each time, so then all are read.
        if (changed.Count <= FewChanged && last is { LeftOut.Length: 0 })
        {
            lines = new(lines);
            foreach (var number in changed)
                if (await desk.RecordAsync(number, cancellation).ConfigureAwait(false) is { } record)
                    lines[number] = (stamps[number], RefrigerantLedger.LinesOf(new(record)));
        }
        else
        {
            lines = [];
            var part = new List<JobRecord>(Batch);
            await foreach (var record in desk.EachRecordAsync(leftOut, cancellation).ConfigureAwait(false))
            {
                part.Add(record);
                if (part.Count == Batch)
                    Fold(part, stamps, lines);
            }
            Fold(part, stamps, lines);
        }
        (known, kits) = (lines, own);
        return last = new(version, [.. lines.Values.SelectMany(job => job.Lines)], [.. leftOut]);
    }

    private void Fold(
        List<JobRecord> part,
        IReadOnlyDictionary<int, string> stamps,
        Dictionary<int, (string, ImmutableArray<LedgerLine>)> lines
    )
    {
        var drawn = new ImmutableArray<LedgerLine>[part.Count];
        Parallel.For(0, part.Count, at => drawn[at] = RefrigerantLedger.LinesOf(new JobPicture(part[at])));
        for (var at = 0; at < part.Count; at++)
        {
            var number = part[at].Job.Number;
            lines[number] = (stamps.GetValueOrDefault(number, ""), drawn[at]);
        }
        Interlocked.Add(ref done, part.Count);
        part.Clear();
    }

    public void Dispose()
    {
        ended.Cancel();
        ended.Dispose();
        turn.Dispose();
    }
}

/// <summary>The books at one moment, with the views that were asked of it.</summary>
internal sealed class LedgerSight(long version, ImmutableArray<LedgerLine> lines, ImmutableArray<string> leftOut)
{
    private readonly Lock gate = new();
    private readonly Dictionary<(int? Year, string Zone), (RefrigerantLedger Ledger, int[] Years)> views = [];

    public long Version { get; } = version;

    /// <summary>A sentence for each job that cannot be read.</summary>
    public ImmutableArray<string> LeftOut { get; } = leftOut;

    /// <summary>All years, or one by the reader's calendar; and which years there are.</summary>
    public (RefrigerantLedger Ledger, int[] Years) Of(int? year, TimeZoneInfo zone)
    {
        var chosen = year is > 1 and < 9999 ? year : null;
        lock (gate)
        {
            if (views.TryGetValue((chosen, zone.Id), out var there))
                return there;
            DateTimeOffset? Start(int? of) =>
                of is { } first ? new(new DateTime(first, 1, 1), zone.GetUtcOffset(new DateTime(first, 1, 1))) : null;
            int[] years =
            [
                .. lines.Select(line => TimeZoneInfo.ConvertTime(line.Date, zone).Year).Distinct().OrderDescending(),
            ];
            // A stranger may ask for any year: only those that are there are kept.
            var view = (RefrigerantLedger.Of(lines, Start(chosen), Start(chosen + 1)), years);
            if (chosen is null || years.Contains(chosen.Value))
                views[(chosen, zone.Id)] = view;
            return view;
        }
    }
}
