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
    private const int Entries = 1000;
    private const int Kills = 8;
    private readonly Desk desk = new();

    public void Dispose() => desk.Dispose();

    /// <summary>The program is killed (SIGKILL) after a random number of acknowledgements, restarted and given all
    /// lines again, until it gets through. What it acknowledged must be on disk at each restart.</summary>
    [Fact]
    public async Task Every_acknowledged_entry_survives_kills_at_random_moments_and_none_is_doubled()
    {
        await desk.OpenJobAsync();
        var chance = new Random(20310704);
        var lines = Enumerable
            .Range(0, Entries)
            .Select(i =>
                JobDocument
                    .WriteEntry(
                        new Entry(
                            new Guid(i + 1, 0, 0, [0, 0, 0, 0, 0, 0, 0, 1]),
                            EntryKinds.Note,
                            Desk.Morning.AddSeconds(i),
                            Desk.Morning.AddSeconds(i),
                            "Ada",
                            FieldBag.Empty.With(
                                "text",
                                new FieldValue.Text("note " + i.ToString(CultureInfo.InvariantCulture))
                            )
                        )
                    )
                    .ToJsonString()
            )
            .ToArray();

        var acknowledged = new HashSet<string>();
        var kills = 0;
        for (var finished = false; !finished; )
        {
            // Eight kills, then through; the last pause of up to 3 ms lands inside a write as often as between two.
            var killAfter = kills < Kills ? acknowledged.Count + chance.Next(1, 115) : int.MaxValue;
            finished = await WriteAsync(
                lines,
                acknowledged,
                killAfter,
                TimeSpan.FromMilliseconds(3 * chance.NextDouble())
            );
            kills += finished ? 0 : 1;
            JobStore.Release();
            Assert.Empty((await desk.JsonAsync("check"))["troubles"]!.AsArray());
            var there = await IdsAsync();
            Assert.Equal(there.Count, there.Distinct().Count());
            Assert.Subset(there.ToHashSet(), acknowledged);
        }
        Assert.Equal(Kills, kills);
        Assert.Equal(Entries, acknowledged.Count);
        Assert.Equal(Entries, (await IdsAsync()).Count);
    }

    /// <summary>Killed while the file is being made or brought up to date: the next start finds it whole or makes it
    /// whole.</summary>
    [Fact]
    public async Task A_program_killed_at_its_very_start_leaves_a_file_that_opens()
    {
        var chance = new Random(20310705);
        for (var i = 0; i < 6; i++)
        {
            var folder = desk.File($"start-{i}");
            using (var program = RealProgram.Start("check", "--data", folder))
            {
                _ = program.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
                // The file appears first; what is made in it follows.
                while (!program.HasExited && !File.Exists(DataFolder.DataFile(folder)))
                    await Task.Delay(1, TestContext.Current.CancellationToken);
                await Task.Delay(
                    TimeSpan.FromMilliseconds(150 * chance.NextDouble()),
                    TestContext.Current.CancellationToken
                );
                if (!program.HasExited)
                    program.Kill();
                await program.WaitForExitAsync(TestContext.Current.CancellationToken);
            }
            await desk.DoneAsync("car", "new", "label=blue estate", "refrigerant=R-134a", "--data", folder);
            await desk.DoneAsync("check", "--data", folder);
        }
    }

    private async Task<List<string>> IdsAsync() =>
        [
            .. JsonNode.Parse(await desk.DoneAsync("job", "export", "1"))!["entries"]!
                .AsArray()
                .Select(entry => entry!["id"]!.ToString()),
        ];

    /// <returns>False when the program was killed.</returns>
    private async Task<bool> WriteAsync(string[] lines, HashSet<string> acknowledged, int killAfter, TimeSpan pause)
    {
        using var program = RealProgram.Start("job", "add", "1", "--lines", "-", "--data", desk.Folder);
        var errors = program.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        var feeding = Task.Run(
            async () =>
            {
                try
                {
                    foreach (var line in lines)
                        await program.StandardInput.WriteLineAsync(line);
                    program.StandardInput.Close();
                }
                catch (IOException)
                {
                    // The reader was killed.
                }
            },
            TestContext.Current.CancellationToken
        );
        var killed = false;
        while (await program.StandardOutput.ReadLineAsync(TestContext.Current.CancellationToken) is { } answer)
        {
            Assert.StartsWith("saved ", answer, StringComparison.Ordinal);
            acknowledged.Add(answer["saved ".Length..]);
            if (killed || acknowledged.Count < killAfter)
                continue;
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
