using Tightcold.Storage.Engines;

namespace Tightcold.Storage.Tests;

/// <summary>Writers of several programs on one data file. Each line stands for a program: the locks are of the file
/// system, and know no difference.</summary>
public sealed class ProgramsLineTests : IDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(2);
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Of_two_programs_that_always_want_to_write_each_gets_every_second_turn()
    {
        var file = folder.File("tightcold.db");
        var turns = new List<int>();
        var inside = 0;
        async Task WriteAsync(int program)
        {
            var line = new ProgramsLine(file);
            for (var i = 0; i < 40; i++)
            {
                using var turn = await line.EnterAsync(Patience, Stop);
                Assert.NotNull(turn);
                Assert.Equal(1, Interlocked.Increment(ref inside));
                turns.Add(program);
                // Until the other one stands in line, as it does while an entry is written: its mark is held.
                for (
                    var waited = 0;
                    waited < 500 && turns.Count < 70 && !IsHeld(file + ProgramsLine.NextMark);
                    waited++
                )
                    await Task.Delay(2, Stop);
                Interlocked.Decrement(ref inside);
            }
        }
        await Task.WhenAll(Task.Run(() => WriteAsync(1), Stop), Task.Run(() => WriteAsync(2), Stop));
        Assert.Equal(80, turns.Count);
        // From the second on, while both were there.
        for (var i = 2; i < 60; i++)
            Assert.NotEqual(turns[i - 1], turns[i]);
    }

    [Fact]
    public async Task Who_waits_for_longer_than_its_patience_is_turned_away_and_leaves_the_line()
    {
        var line = new ProgramsLine(folder.File("tightcold.db"));
        using (await line.EnterAsync(Patience, Stop))
            Assert.Null(await line.EnterAsync(TimeSpan.FromMilliseconds(50), Stop));
        using var turn = await line.EnterAsync(Patience, Stop);
        Assert.NotNull(turn);
    }

    [Fact]
    public async Task Where_no_lock_can_be_made_there_is_no_line_and_the_database_lets_in_who_asks()
    {
        var line = new ProgramsLine(Path.Combine(folder.File("nowhere"), "tightcold.db"));
        using var first = await line.EnterAsync(Patience, Stop);
        using var second = await line.EnterAsync(Patience, Stop);
        Assert.NotNull(first);
        Assert.NotNull(second);
    }

    private static bool IsHeld(string path)
    {
        using var mark = FileLock.TryAloneAt(path);
        return mark is null;
    }
}
