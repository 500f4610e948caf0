using System.Text;
using static Tightcold.LogStore.Tests.Story;

namespace Tightcold.LogStore.Tests;

/// <summary>Killed while writing.</summary>
public sealed class TornTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Cut_off_at_any_letter_all_that_was_acknowledged_is_there_and_the_torn_part_is_gone_and_said()
    {
        var (bytes, after) = await ToldAsync();
        // The last two writings, a photo among them, and the first, which brings the head of the file.
        var lengths = Enumerable
            .Range((int)after[^3].Length, bytes.Length - (int)after[^3].Length + 1)
            .Concat(Enumerable.Range(0, (int)after[1].Length + 1));
        foreach (var length in lengths)
        {
            var file = new MemoryFile(bytes[..length]);
            var log = JobLog.Open(file);
            var head = Math.Min(length, Encoding.UTF8.GetByteCount(Lines.LogLine.Head) + 1);
            var (acknowledged, answers) = after.Last(one => one.Length <= length);
            // The head of the file stays without a line behind it, when it is whole.
            var whole = acknowledged > 0 || head <= Lines.LogLine.Head.Length ? acknowledged : head;
            Assert.Equal(whole, file.Length);
            Assert.Equal(length == whole, log.Torn is null);
            Assert.Empty(log.Damages);
            Assert.Equal(answers, await AskAsync(log));
            Assert.Equal(length == whole ? 0 : 1, file.Writes);
            Assert.Null(JobLog.Open(file).Torn);
        }
    }

    [Fact]
    public async Task After_a_torn_end_work_goes_on_where_it_was_and_the_job_is_told_whose_writing_it_was()
    {
        var (bytes, after) = await ToldAsync();
        var file = new MemoryFile(bytes[..^1]);
        var log = JobLog.Open(file);
        Assert.Contains("(Job 1)", log.Torn, StringComparison.Ordinal);
        await Acts[^1](log);
        Assert.Equal(bytes, file.Bytes);
        Assert.Equal(after[^1].Answers, await AskAsync(JobLog.Open(file)));
    }

    [Fact]
    public async Task On_a_real_disk_it_is_the_same()
    {
        var folder = Directory.CreateTempSubdirectory("tightcold-test-");
        try
        {
            var path = Path.Combine(folder.FullName, "jobs.log");
            var (bytes, after) = await ToldAsync();
            using (var file = new DiskFile(path))
            {
                var log = JobLog.Open(file);
                foreach (var act in Acts)
                    await act(log);
                file.Append("{\"digest\":\"torn"u8);
            }
            using (var file = new DiskFile(path))
            {
                var log = JobLog.Open(file);
                Assert.NotNull(log.Torn);
                Assert.Equal(after[^1].Answers, await AskAsync(log));
            }
            Assert.Equal(bytes, await File.ReadAllBytesAsync(path, Stop));
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }
}
