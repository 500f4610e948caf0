using static Tightcold.LogStore.Tests.Story;

namespace Tightcold.LogStore.Tests;

/// <summary>No room on the disk.</summary>
public sealed class FullTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task With_the_disk_full_at_any_writing_nothing_half_stays_and_with_room_the_same_again_will_do()
    {
        var (bytes, after) = await ToldAsync();
        var file = new MemoryFile();
        var log = JobLog.Open(file);
        for (var i = 0; i < Acts.Length; i++)
        {
            var needed = after[i + 1].Length - after[i].Length;
            var version = await log.VersionAsync(Stop);
            foreach (var part in new[] { 0, 1, needed / 2, needed - 1 })
            {
                file.Room = after[i].Length + part;
                await Assert.ThrowsAsync<FullException>(() => Acts[i](log));
                Assert.Equal(after[i].Length, file.Length);
                Assert.Equal(after[i].Answers, await AskAsync(log));
                Assert.Equal(version, await log.VersionAsync(Stop));
                Assert.Null(JobLog.Open(file).Torn);
            }
            file.Room = long.MaxValue;
            await Acts[i](log);
            Assert.Equal(after[i + 1].Answers, await AskAsync(log));
        }
        Assert.Equal(bytes, file.Bytes);
    }

    [Fact]
    public async Task Where_the_half_cannot_be_cut_at_once_it_is_cut_before_the_next_writing_or_at_the_next_opening()
    {
        var (bytes, after) = await ToldAsync();
        for (var i = 0; i < Acts.Length; i++)
        {
            var file = new MemoryFile(bytes[..(int)after[i].Length]);
            var log = JobLog.Open(file);
            (file.Room, file.RefusesToCut) = (after[i].Length + 30, true);
            await Assert.ThrowsAsync<FullException>(() => Acts[i](log));
            Assert.Equal(after[i].Answers, await AskAsync(log));
            // It still refuses: nothing is written behind the half.
            await Assert.ThrowsAsync<IOException>(() => Acts[i](log));
            (file.Room, file.RefusesToCut) = (long.MaxValue, false);
            var elsewhere = JobLog.Open(new MemoryFile(file.Bytes));
            Assert.Equal((true, after[i].Answers), (elsewhere.Torn is not null, await AskAsync(elsewhere)));
            await Acts[i](log);
            Assert.Equal(bytes[..(int)after[i + 1].Length], file.Bytes);
        }
    }

    [Fact]
    public async Task What_another_program_wrote_meanwhile_is_neither_cut_nor_written_behind()
    {
        var file = new MemoryFile();
        var (one, other) = (JobLog.Open(file), JobLog.Open(file));
        await one.SaveCarAsync(CarNamed(1, "blue estate"), Stop);
        var length = file.Length;
        await Assert.ThrowsAsync<LogStoreException>(() => other.SaveCarAsync(CarNamed(2, "van"), Stop));
        Assert.Equal(length, file.Length);
    }
}
