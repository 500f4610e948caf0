using System.Diagnostics;

namespace Tightcold.Trials.Halfway;

/// <summary>A backup that is killed leaves no file under a backup's name, the data as they are, and nothing after the
/// next start.</summary>
internal sealed class BackupTrial(string root) : HalfwayTrial(root)
{
    private const int Jobs = 150;

    private string Backups => Path.Combine(Data, "backups");

    private IEnumerable<string> Parts => Directory.Exists(Backups) ? Directory.EnumerateFiles(Backups, "*.part*") : [];

    public static async Task<HalfwayTrial> PrepareAsync(string root)
    {
        var trial = new BackupTrial(root);
        await Workplace.FillAsync(trial.Data, Jobs).ConfigureAwait(false);
        Storage.JobStore.Release();
        return trial;
    }

    public override Task ResetAsync(int round)
    {
        Clear(Backups);
        return Task.CompletedTask;
    }

    public override Process Start() => RealProgram.Start(Data, "backup");

    public override bool HasBegun() => Parts.Any();

    public override bool IsHalfway() => Parts.Any();

    public override async Task<IReadOnlyList<string>> JudgeAsync()
    {
        var wrong = new List<string>();
        // A start of the program takes away what was left.
        wrong.AddRange(await Workplace.TroublesAsync(Data).ConfigureAwait(false));
        wrong.AddRange(Parts.Select(part => $"{Path.GetFileName(part)} stayed"));
        foreach (var whole in Directory.Exists(Backups) ? Directory.EnumerateFiles(Backups, "*.db") : [])
        {
            var place = Path.Combine(Root, "judged");
            Directory.CreateDirectory(place);
            File.Move(whole, Path.Combine(place, "tightcold.db"));
            wrong.AddRange(await Workplace.TroublesAsync(place).ConfigureAwait(false));
            Clear(place);
        }
        return wrong;
    }
}
