using System.Diagnostics;

namespace Tightcold.Trials.Halfway;

/// <summary>After a restore that was killed either the old data are there or those of the backup, whole; what was kept
/// of the old ones is whole as well.</summary>
internal sealed class RestoreTrial(string root) : HalfwayTrial(root)
{
    private const int Jobs = 150;
    private SortedDictionary<int, string> saved = [],
        before = [];

    private string Backup => Path.Combine(Root, "saved.db");
    private string Stage => Path.Combine(Data, "restoring");

    public static async Task<HalfwayTrial> PrepareAsync(string root)
    {
        var trial = new RestoreTrial(root);
        await Workplace.FillAsync(trial.Data, Jobs).ConfigureAwait(false);
        Storage.JobStore.Release();
        if (await RealProgram.RunAsync(trial.Data, "backup", trial.Backup).ConfigureAwait(false) is not (0, _))
            throw new InvalidOperationException("no backup was made");
        trial.saved = await Workplace.ExportsAsync(trial.Data).ConfigureAwait(false);
        return trial;
    }

    /// <summary>A note makes the data others than the backup's.</summary>
    public override async Task ResetAsync(int round)
    {
        foreach (var kept in Directory.EnumerateFiles(Data, "tightcold-before-restore-*"))
            File.Delete(kept);
        using (var store = await Storage.JobStore.OpenAsync(Data).ConfigureAwait(false))
            await new App.Desk.JobDesk(store, TimeProvider.System, new App.Desk.RandomIds())
                .AddEntryAsync(
                    1,
                    Tightcold.Jobs.Entries.EntryKinds.Note,
                    new Dictionary<string, string> { ["text"] = $"after the backup, round {round}" },
                    null,
                    "Ada"
                )
                .ConfigureAwait(false);
        before = await Workplace.ExportsAsync(Data).ConfigureAwait(false);
        Storage.JobStore.Release();
    }

    public override Process Start() => RealProgram.Start(Data, "restore", Backup);

    public override bool HasBegun() => Directory.Exists(Stage);

    public override bool IsHalfway() => Directory.Exists(Stage);

    public override async Task<IReadOnlyList<string>> JudgeAsync()
    {
        var wrong = new List<string>();
        var there = await Workplace.ExportsAsync(Data).ConfigureAwait(false);
        if (!there.SequenceEqual(before) && !there.SequenceEqual(saved))
            wrong.Add("the data are neither the old ones nor the backup's");
        wrong.AddRange(await Workplace.TroublesAsync(Data).ConfigureAwait(false));
        if (Directory.Exists(Stage) || Directory.EnumerateFiles(Data, "*.part*").Any())
            wrong.Add("half files stayed");
        foreach (var kept in Directory.EnumerateFiles(Data, "tightcold-before-restore-*.db"))
        {
            var place = Path.Combine(Root, "judged");
            Directory.CreateDirectory(place);
            File.Move(kept, Path.Combine(place, "tightcold.db"));
            if (File.Exists(kept + "-wal"))
                File.Move(kept + "-wal", Path.Combine(place, "tightcold.db-wal"));
            if (!(await Workplace.ExportsAsync(place).ConfigureAwait(false)).SequenceEqual(before))
                wrong.Add("what was kept of the old data is not whole");
            Clear(place);
        }
        return wrong;
    }
}
