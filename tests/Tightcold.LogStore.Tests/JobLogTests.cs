using System.Text;
using System.Text.Json;
using Tightcold.Jobs.Fields;
using Tightcold.LogStore.Lines;
using static Tightcold.LogStore.Tests.Story;

namespace Tightcold.LogStore.Tests;

public sealed class JobLogTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Two_openings_of_the_same_file_answer_the_same_and_write_nothing()
    {
        var (bytes, after) = await ToldAsync();
        var file = new MemoryFile(bytes);
        var (one, other) = (JobLog.Open(file), JobLog.Open(file));
        Assert.Equal(after[^1].Answers, await AskAsync(one));
        Assert.Equal(after[^1].Answers, await AskAsync(other));
        Assert.Equal(await one.VersionAsync(Stop), await other.VersionAsync(Stop));
        Assert.Equal(await one.StampsAsync(Stop), await other.StampsAsync(Stop));
        Assert.Equal(0, file.Writes);
        // A new log is empty until something is written down.
        var empty = new MemoryFile();
        Assert.Empty(await JobLog.Open(empty).CarsAsync(Stop));
        Assert.Equal((0, 0L), (empty.Writes, empty.Length));
    }

    [Fact]
    public async Task What_changes_nothing_leaves_no_line()
    {
        var (bytes, _) = await ToldAsync();
        var file = new MemoryFile(bytes);
        var log = JobLog.Open(file);
        await log.SaveCarAsync(CarNamed(1, "green estate"), Stop);
        foreach (var i in new[] { 1, 2, 3, 5, 6, 7, 8, 9, 10, 12, 13, 14, 15, 16 })
            await Acts[i](log);
        await log.AddEntriesAsync(Id(3, 1), [], Stop);
        Assert.Equal(0, file.Writes);
        Assert.Equal(bytes, file.Bytes);
    }

    [Fact]
    public async Task An_entry_twice_in_one_writing_is_written_once_and_two_of_one_id_not_at_all()
    {
        var (_, log) = await WithJobAsync();
        await log.AddEntriesAsync(Id(3, 1), [Note(1), Note(2), Note(1)], Stop);
        Assert.Equal([Note(1), Note(2)], (await log.RecordAsync(1, Stop))!.Journal.All);
        await Assert.ThrowsAsync<LogStoreException>(() =>
            log.AddEntriesAsync(Id(3, 1), [Note(3), Note(4), Note(3) with { Who = "Bo" }], Stop)
        );
        Assert.Equal(2, await log.EntryCountAsync(1, Stop));
    }

    [Fact]
    public async Task What_could_not_be_read_again_is_not_written()
    {
        var (file, log) = await WithJobAsync();
        var length = file.Length;
        var trouble = await Assert.ThrowsAsync<LogStoreException>(() =>
            log.AddEntriesAsync(
                Id(3, 1),
                [Note(1) with { Fields = FieldBag.Empty.With("gross", new FieldValue.Number(1)) }],
                Stop
            )
        );
        Assert.Contains("could not be read again", trouble.Message, StringComparison.Ordinal);
        Assert.Equal(length, file.Length);
        Assert.Equal(0, await log.EntryCountAsync(1, Stop));
    }

    [Fact]
    public async Task A_text_that_looks_like_the_log_itself_is_only_a_text()
    {
        var (file, log) = await WithJobAsync();
        var inside = "{\"digest\":\"x\",\"again\":\"x\"}\n" + LogSubject.Of(CarNamed(1, "")).Text + " \u2028 \\u0000 é";
        var note = Note(1) with { Fields = FieldBag.Empty.With("text", new FieldValue.Text(inside)) };
        await log.AddEntriesAsync(Id(3, 1), [note], Stop);
        await log.AddEntriesAsync(Id(3, 1), [Note(2)], Stop);
        var again = JobLog.Open(file);
        Assert.Empty(again.Damages);
        Assert.Equal([note, Note(2)], (await again.RecordAsync(1, Stop))!.Journal.All);
    }

    [Fact]
    public async Task Calls_that_come_between_each_other_lose_nothing_and_number_jobs_one_after_the_other()
    {
        var (file, log) = await WithJobAsync();
        await Task.WhenAll(
            Enumerable
                .Range(1, 40)
                .SelectMany(i =>
                    new[]
                    {
                        Task.Run(() => log.AddEntriesAsync(Id(3, 1), [Note(i), Note(i + 1)], Stop)),
                        Task.Run(() => log.AddJobAsync(JobOf(100 + i, 1), Stop)),
                        Task.Run(async () =>
                        {
                            await foreach (var record in log.RecordsAsync(null, null, Stop))
                                Assert.Equal(Id(1, 1), record.Car.Id);
                        }),
                    }
                )
        );
        var again = JobLog.Open(file);
        Assert.Equal(Enumerable.Range(1, 41).Select(Note), (await again.RecordAsync(1, Stop))!.Journal.All);
        Assert.Equal(
            Enumerable.Range(1, 41).Reverse(),
            (await again.JobsAsync(new(), Stop)).Jobs.Select(job => job.Number)
        );
    }

    [Fact]
    public async Task Each_line_is_json_and_its_digest_is_what_anybody_can_compute()
    {
        var (bytes, _) = await ToldAsync();
        var lines = Encoding.UTF8.GetString(bytes).Split('\n');
        Assert.Equal("""{"format":"tightcold-log","version":1}""", lines[0]);
        var before = LogLine.Hash(lines[0]);
        var number = 0;
        foreach (var line in lines.Where(line => line.StartsWith("{\"digest\"", StringComparison.Ordinal)))
        {
            using var json = JsonDocument.Parse(line);
            var (digest, on) = (
                json.RootElement.GetProperty("digest").GetString(),
                json.RootElement.GetProperty("before").GetString()
            );
            Assert.Equal(before, on);
            // Behind {"digest":" and 64 digits and ",.
            before = LogLine.Hash(line[77..]);
            Assert.Equal(before, digest);
            Assert.Equal(++number, json.RootElement.GetProperty("line").GetInt32());
        }
        Assert.Equal(Acts.Length, number);
    }

    private static async Task<(MemoryFile File, JobLog Log)> WithJobAsync()
    {
        var file = new MemoryFile();
        var log = JobLog.Open(file);
        await log.SaveCarAsync(CarNamed(1, "blue estate"), Stop);
        await log.AddJobAsync(JobOf(1, 1), Stop);
        return (file, log);
    }
}
