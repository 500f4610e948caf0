using System.Globalization;

namespace Tightcold.Trials.Halfway;

/// <summary>Long commands killed on the way. Only what was caught halfway counts: begun, and not done.</summary>
internal static class HalfwayTrials
{
    private static readonly (string Name, Func<string, Task<HalfwayTrial>> Prepare)[] All =
    [
        ("backup", async root => await BackupTrial.PrepareAsync(root).ConfigureAwait(false)),
        ("restore", async root => await RestoreTrial.PrepareAsync(root).ConfigureAwait(false)),
        ("import", async root => await ImportTrial.PrepareAsync(root).ConfigureAwait(false)),
        ("upgrade", async root => await UpgradeTrial.PrepareAsync(root).ConfigureAwait(false)),
    ];

    public static async Task<bool> RunAsync(int times, string[] only, TextWriter to)
    {
        var held = true;
        foreach (var (name, prepare) in All)
            if (only.Length == 0 || only.Contains(name))
                held &= await RunAsync(name, times, prepare, to).ConfigureAwait(false);
        return held;
    }

    private static async Task<bool> RunAsync(
        string name,
        int times,
        Func<string, Task<HalfwayTrial>> prepare,
        TextWriter to
    )
    {
        using var place = new Workplace();
        var trial = await prepare(place.Root).ConfigureAwait(false);
        var chance = new Random(20310704);
        // How long it takes from its first trace to its end; learnt from the first run and kept up with the machine.
        var (caught, tries, window) = (0, 0, await trial.WindowAsync().ConfigureAwait(false));
        var wrong = new List<string>();
        for (; caught < times && tries < 20 * times; tries++)
        {
            await trial.ResetAsync(tries).ConfigureAwait(false);
            using var program = trial.Start();
            _ = program.StandardError.ReadToEndAsync();
            _ = program.StandardOutput.ReadToEndAsync();
            while (!program.HasExited && !trial.HasBegun())
                await Task.Delay(1).ConfigureAwait(false);
            await Task.Delay(window * chance.NextDouble()).ConfigureAwait(false);
            if (program.HasExited)
                window *= 0.9;
            else
                program.Kill();
            await program.WaitForExitAsync().ConfigureAwait(false);
            var halfway = trial.IsHalfway();
            caught += halfway ? 1 : 0;
            wrong.AddRange(await trial.JudgeAsync().ConfigureAwait(false));
            Storage.JobStore.Release();
        }
        await to.WriteLineAsync(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{name}: {caught} caught halfway in {tries} tries, {wrong.Count} troubles"
                )
            )
            .ConfigureAwait(false);
        foreach (var trouble in wrong.Take(10))
            await to.WriteLineAsync("  " + trouble).ConfigureAwait(false);
        return caught >= times && wrong.Count == 0;
    }
}
