using Tightcold.Jobs.Journals;
using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Fields;
using Tightcold.Storage.Engines;

namespace Tightcold.Storage.Tests;

/// <summary>Many at once: each waits its turn, nobody is passed over, and who waits in vain is told so.</summary>
public sealed class BusyTests : IDisposable
{
    private static readonly TimeSpan Long = TimeSpan.FromMinutes(2);

    private readonly TemporaryFolder folder = new();

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public void Dispose() => folder.Dispose();

    private static Car ACar(int number) =>
        new(
            Guid.NewGuid(),
            FieldBag
                .Empty.With("label", new FieldValue.Text(string.Create(CultureInfo.InvariantCulture, $"car {number}")))
                .With("refrigerant", new FieldValue.Text("R-134a"))
        );

    private Task<JobStore> StoreAsync(TimeSpan? patience = null, string path = "") =>
        JobStore.PreparedAsync(
            new SqliteEngine(path.Length > 0 ? path : DataFolder.DataFile(folder.Path), patience: patience),
            Stop
        );

    [Fact]
    public async Task Who_waits_is_served_in_the_order_of_coming_and_who_leaves_is_stepped_over()
    {
        var line = new WaitingLine(1, Long);
        var first = await line.EnterAsync(Stop);
        var served = new ConcurrentQueue<int>();
        using var leaves = new CancellationTokenSource();
        var waits = Enumerable
            .Range(0, 20)
            .Select(async i =>
            {
                using var place = await line.EnterAsync(i == 7 ? leaves.Token : Stop);
                served.Enqueue(i);
                await Task.Yield();
            })
            .ToArray();
        await leaves.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => waits[7]);
        first!.Dispose();
        await Task.WhenAll(waits.Where((_, i) => i != 7));
        Assert.Equal(Enumerable.Range(0, 20).Where(i => i != 7), served);
        using var free = await line.EnterAsync(Stop);
        Assert.NotNull(free);
    }

    [Fact]
    public async Task A_line_that_moves_is_waited_out_however_long_it_takes_and_one_that_stands_is_left()
    {
        var patience = TimeSpan.FromSeconds(6);
        var line = new WaitingLine(1, patience);
        var began = Stopwatch.GetTimestamp();
        var moved = await Task.WhenAll(
            Enumerable
                .Range(0, 30)
                .Select(async _ =>
                {
                    using var place = await line.EnterAsync(Stop);
                    if (place is not null)
                        await Task.Delay(TimeSpan.FromMilliseconds(250), Stop);
                    return place is not null;
                })
        );
        Assert.All(moved, Assert.True);
        Assert.True(Stopwatch.GetElapsedTime(began) > patience, "the line was too short to say anything");

        using var holder = await line.EnterAsync(Stop);
        Assert.All(await Task.WhenAll(Enumerable.Range(0, 5).Select(_ => line.EnterAsync(Stop))), Assert.Null);
    }

    [Fact]
    public async Task A_file_that_another_program_holds_is_waited_for_then_told_busy_and_nothing_is_written()
    {
        using var store = await StoreAsync(TimeSpan.FromSeconds(1));
        await using var other = new SqliteConnection($"Data Source={DataFolder.DataFile(folder.Path)};Pooling=False");
        await other.OpenAsync(Stop);
        await using (var held = await other.BeginTransactionAsync(Stop))
        {
            var troubles = await Task.WhenAll(
                Enumerable
                    .Range(0, 4)
                    .Select(i => Assert.ThrowsAsync<StoreException>(() => store.SaveCarAsync(ACar(i), Stop)))
            );
            Assert.All(troubles, trouble => Assert.Equal(StoreTrouble.Busy, trouble.Trouble));
            // Readers need not wait.
            Assert.Empty(await store.CarsAsync(Stop));
        }
        await store.SaveCarAsync(ACar(9), Stop);
        Assert.Equal("car 9", Assert.Single(await store.CarsAsync(Stop)).Label);
    }

    [Fact]
    public async Task A_file_that_is_given_back_in_time_is_written_to_without_a_word()
    {
        using var store = await StoreAsync(Long);
        await using var other = new SqliteConnection($"Data Source={DataFolder.DataFile(folder.Path)};Pooling=False");
        await other.OpenAsync(Stop);
        var held = await other.BeginTransactionAsync(Stop);
        var writing = Task.WhenAll(
            Enumerable.Range(0, 20).Select(i => Task.Run(() => store.SaveCarAsync(ACar(i), Stop), Stop))
        );
        await Task.Delay(TimeSpan.FromSeconds(1), Stop);
        Assert.False(writing.IsCompleted);
        await held.DisposeAsync();
        await writing;
        Assert.Equal(20, (await store.CarsAsync(Stop)).Count);
    }

    /// <summary>The same file by another name has a line of its own, as another program would.</summary>
    [Fact]
    public async Task Two_programs_that_write_without_a_pause_both_get_on()
    {
        using var first = await StoreAsync(Long);
        var file = Path.GetFileName(DataFolder.DataFile(folder.Path));
        using var second = await StoreAsync(Long, Path.Combine(folder.Path, ".", file));
        await Task.WhenAll(
            Enumerable
                .Range(0, 8)
                .Select(hand =>
                    Task.Run(
                        async () =>
                        {
                            for (var i = 0; i < 25; i++)
                                await (hand % 2 == 0 ? first : second).SaveCarAsync(ACar(i), Stop);
                        },
                        Stop
                    )
                )
        );
        Assert.Equal(200, (await second.CarsAsync(Stop)).Count);
    }

    /// <summary>The library's own pool could lend one to two (github.com/dotnet/efcore/issues/39008).</summary>
    [Fact]
    public async Task No_two_who_work_at_once_have_the_same_connection()
    {
        using var engine = new SqliteEngine(DataFolder.DataFile(folder.Path));
        for (var wave = 0; wave < 100; wave++)
        {
            var open = await Task.WhenAll(Enumerable.Range(0, 16).Select(_ => Task.Run(engine.Open, Stop)));
            Assert.Equal(16, open.Select(database => database.Database.GetDbConnection()).Distinct().Count());
            await Task.WhenAll(open.Select(database => Task.Run(async () => await database.DisposeAsync(), Stop)));
        }
    }

    [Fact]
    public async Task A_connection_with_work_left_undone_is_not_handed_on()
    {
        using var store = await StoreAsync();
        using var engine = new SqliteEngine(DataFolder.DataFile(folder.Path));
        var left = engine.Open();
        await left.Database.ExecuteSqlRawAsync("BEGIN IMMEDIATE", Stop);
        await left.DisposeAsync();
        await store.SaveCarAsync(ACar(1), Stop);
        await using var next = engine.Open();
        Assert.Equal(1, await next.Cars.CountAsync(Stop));
        await using var begun = await next.Database.BeginTransactionAsync(Stop);
    }
}
