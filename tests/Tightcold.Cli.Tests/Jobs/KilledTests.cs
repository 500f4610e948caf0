using System.Diagnostics;
using System.Globalization;
using System.Text.Json.Nodes;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Json;
using Tightcold.Storage;

namespace Tightcold.Cli.Tests.Jobs;

/// <summary>The real program, killed while it writes.</summary>
public sealed class KilledTests : IDisposable
{
    private const int Entries = 200;
    private readonly Desk desk = new();

    public void Dispose() => desk.Dispose();

    /// <summary>The program is killed (SIGKILL) after a random number of acknowledgements, restarted and given all
    /// lines again, until it gets through. What it acknowledged must be on disk at each restart.</summary>
    [Fact]
    public async Task Every_acknowledged_entry_survives_kills_at_random_moments_and_none_is_doubled()
    {
        await desk.OpenJobAsync();
        var chance = new Random(20310704);
        var lines = Enumerable.Range(0, Entries).Select(i => JobDocument.WriteEntry(new Entry(
            new Guid(i + 1, 0, 0, [0, 0, 0, 0, 0, 0, 0, 1]), EntryKinds.Note, Desk.Morning.AddSeconds(i), Desk.Morning.AddSeconds(i), "Ada",
            FieldBag.Empty.With("text", new FieldValue.Text("note " + i.ToString(CultureInfo.InvariantCulture))))).ToJsonString()).ToArray();

        var acknowledged = new HashSet<string>();
        var kills = 0;
        for (var finished = false; !finished;)
        {
            // Five kills, then through; the last pause of up to 3 ms lands inside a write as often as between two.
            var killAfter = kills < 5 ? acknowledged.Count + chance.Next(1, 35) : int.MaxValue;
            finished = await WriteAsync(lines, acknowledged, killAfter, TimeSpan.FromMilliseconds(3 * chance.NextDouble()));
            kills += finished ? 0 : 1;
            JobStore.Release();
            var there = await IdsAsync();
            Assert.Equal(there.Count, there.Distinct().Count());
            Assert.Subset(there.ToHashSet(), acknowledged);
        }
        Assert.Equal(5, kills);
        Assert.Equal(Entries, acknowledged.Count);
        Assert.Equal(Entries, (await IdsAsync()).Count);
    }

    private async Task<List<string>> IdsAsync() =>
        [.. JsonNode.Parse(await desk.DoneAsync("job", "export", "1"))!["entries"]!.AsArray().Select(entry => entry!["id"]!.ToString())];

    /// <returns>False when the program was killed.</returns>
    private async Task<bool> WriteAsync(string[] lines, HashSet<string> acknowledged, int killAfter, TimeSpan pause)
    {
        var start = new ProcessStartInfo(Environment.ProcessPath is { } host && Path.GetFileNameWithoutExtension(host) == "dotnet" ? host : "dotnet")
        {
            RedirectStandardInput = true, RedirectStandardOutput = true, RedirectStandardError = true,
        };
        foreach (var word in new[] { Path.Combine(AppContext.BaseDirectory, "tightcold.dll"), "job", "add", "1", "--lines", "-", "--data", desk.Folder })
            start.ArgumentList.Add(word);
        using var program = Process.Start(start)!;
        var errors = program.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        var feeding = Task.Run(async () =>
        {
            try
            {
                foreach (var line in lines) await program.StandardInput.WriteLineAsync(line);
                program.StandardInput.Close();
            }
            catch (IOException)
            {
                // The reader was killed.
            }
        }, TestContext.Current.CancellationToken);
        var killed = false;
        while (await program.StandardOutput.ReadLineAsync(TestContext.Current.CancellationToken) is { } answer)
        {
            Assert.StartsWith("saved ", answer, StringComparison.Ordinal);
            acknowledged.Add(answer["saved ".Length..]);
            if (killed || acknowledged.Count < killAfter) continue;
            await Task.Delay(pause, TestContext.Current.CancellationToken);
            program.Kill();
            killed = true;
        }
        await program.WaitForExitAsync(TestContext.Current.CancellationToken);
        await feeding;
        Assert.True(killed || program.ExitCode == 0, await errors);
        return !killed;
    }
}
