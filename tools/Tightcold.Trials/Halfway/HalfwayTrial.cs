using System.Diagnostics;

namespace Tightcold.Trials.Halfway;

/// <summary>One long command on data of its own.</summary>
internal abstract class HalfwayTrial(string root)
{
    protected string Root { get; } = root;
    protected string Data => Path.Combine(Root, "data");

    /// <summary>As before the command, for the try of this number.</summary>
    public abstract Task ResetAsync(int round);

    public abstract Process Start();

    /// <summary>Its first trace is on the disk.</summary>
    public abstract bool HasBegun();

    /// <summary>Asked when it is dead: it had begun and was not done.</summary>
    public abstract bool IsHalfway();

    /// <summary>What is wrong with what it left.</summary>
    public abstract Task<IReadOnlyList<string>> JudgeAsync();

    /// <summary>From its first trace to its end.</summary>
    public async Task<TimeSpan> WindowAsync()
    {
        await ResetAsync(0).ConfigureAwait(false);
        using var program = Start();
        _ = program.StandardError.ReadToEndAsync();
        _ = program.StandardOutput.ReadToEndAsync();
        while (!program.HasExited && !HasBegun())
            await Task.Delay(1).ConfigureAwait(false);
        var began = Stopwatch.StartNew();
        await program.WaitForExitAsync().ConfigureAwait(false);
        return program.ExitCode == 0 ? began.Elapsed : throw new InvalidOperationException("it failed unharmed");
    }

    protected static void Clear(string folder)
    {
        Storage.JobStore.Release();
        if (Directory.Exists(folder))
            Directory.Delete(folder, recursive: true);
    }

    protected static IEnumerable<string> Differences(
        SortedDictionary<int, string> wanted,
        SortedDictionary<int, string> there
    ) =>
        wanted
            .Keys.Union(there.Keys)
            .Where(number => wanted.GetValueOrDefault(number) != there.GetValueOrDefault(number))
            .Select(number => $"job {number} is not as it was");
}
