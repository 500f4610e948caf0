using System.Diagnostics;
using Tightcold.App.Desk;

namespace Tightcold.Trials.Halfway;

/// <summary>An import of many jobs that is killed leaves whole jobs only, and the same again brings the rest.</summary>
internal sealed class ImportTrial(string root) : HalfwayTrial(root)
{
    private const int Jobs = 150;
    private SortedDictionary<int, string> wanted = [];
    private int taken;

    private string Book => Path.Combine(Root, "jobs.json");
    private string Log => Path.Combine(Data, "tightcold.db-wal");

    public static async Task<HalfwayTrial> PrepareAsync(string root)
    {
        var trial = new ImportTrial(root);
        var source = Path.Combine(root, "source");
        await Workplace.FillAsync(source, Jobs).ConfigureAwait(false);
        Storage.JobStore.Release();
        if (
            await RealProgram.RunAsync(source, "job", "export", "--all", "--to", trial.Book).ConfigureAwait(false)
            is not
            (0, _)
        )
            throw new InvalidOperationException("no file of jobs was made");
        trial.wanted = await Workplace.ExportsAsync(source).ConfigureAwait(false);
        return trial;
    }

    private long emptyLog;

    public override async Task ResetAsync(int round)
    {
        Clear(Data);
        (await Storage.JobStore.OpenAsync(Data).ConfigureAwait(false)).Dispose();
        Storage.JobStore.Release();
        emptyLog = File.Exists(Log) ? new FileInfo(Log).Length : 0;
    }

    public override Process Start() => RealProgram.Start(Data, "job", "import", Book);

    public override bool HasBegun() => File.Exists(Log) && new FileInfo(Log).Length > emptyLog;

    public override bool IsHalfway()
    {
        var there = Workplace.ExportsAsync(Data).GetAwaiter().GetResult();
        taken = there.Count;
        return taken > 0 && taken < Jobs;
    }

    public override async Task<IReadOnlyList<string>> JudgeAsync()
    {
        var wrong = new List<string>();
        var there = await Workplace.ExportsAsync(Data).ConfigureAwait(false);
        wrong.AddRange(
            there
                .Where(job => wanted.GetValueOrDefault(job.Key) != job.Value)
                .Select(job => $"job {job.Key} came in half")
        );
        wrong.AddRange(await Workplace.TroublesAsync(Data).ConfigureAwait(false));
        using (var store = await Storage.JobStore.OpenAsync(Data).ConfigureAwait(false))
        {
            var desk = new JobDesk(store, TimeProvider.System, new RandomIds());
            foreach (var (number, text) in wanted)
                if (!(await desk.ImportAsync(text).ConfigureAwait(false)).Taken)
                    wrong.Add($"job {number} was not taken in again");
        }
        wrong.AddRange(Differences(wanted, await Workplace.ExportsAsync(Data).ConfigureAwait(false)));
        return wrong;
    }
}
