using System.Text;
using CsCheck;
using Tightcold.Jobs.Json;
using Tightcold.LogStore.Lines;
using static Tightcold.LogStore.Tests.Story;

namespace Tightcold.LogStore.Tests;

/// <summary>A letter that changed on the disk.</summary>
public sealed class DamageTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    /// <summary>What is said of a job, a car and each photo, the kits of a job apart: a damaged kit is named
    /// itself.</summary>
    private static async Task<Dictionary<string, string>> SaidAsync(JobLog log)
    {
        var said = new Dictionary<string, string>();
        var leftOut = new List<string>();
        foreach (var car in await log.CarsAsync(Stop))
            said[$"car {car.Id}"] = JobDocument.WriteCar(car).ToJsonString();
        foreach (var kit in await log.KitsAsync(Stop))
            said[$"kit {kit.Id}"] = JobDocument.WriteKit(kit).ToJsonString();
        await foreach (var record in log.RecordsAsync(null, leftOut, Stop))
        {
            var id = record.Job.Id;
            said[$"job {id}"] =
                JobDocument.Write(record with { Kits = [] }) + string.Join(' ', await log.PhotoListAsync(id, Stop));
            foreach (var kit in record.Kits)
                said[$"job {id} kit {kit.Id}"] = JobDocument.WriteKit(kit).ToJsonString();
            foreach (var photo in await log.PhotosAsync(id, Stop))
                said[$"job {id} photo {photo.Id}"] = photo.Digest;
        }
        foreach (var damage in log.Damages.Where(damage => damage.Of is { What: LogSubject.Job }))
            Assert.Contains(damage.Sentence, leftOut);
        return said;
    }

    /// <summary>Whether it is said which of them is not as it was.</summary>
    private static bool IsNamed(string what, JobLog log) =>
        log.Damages.Any(damage =>
            damage.Of is { } of
                ? what.StartsWith($"{of.What} {of.Id}", StringComparison.Ordinal)
                    || what.EndsWith($"{of.What} {of.Id}", StringComparison.Ordinal)
                : what.Contains("photo", StringComparison.Ordinal)
                    && damage.Sentence.Contains(what[^36..], StringComparison.Ordinal)
        );

    /// <summary>Whatever is said is as it was, or is named; work goes on, and nothing that was there is
    /// overwritten.</summary>
    /// <param name="whose">Who may be left out for it; null where it is not asked.</param>
    private static async Task HoldsAsync(
        Dictionary<string, string> whole,
        byte[] bytes,
        string how,
        IReadOnlyCollection<LogSubject>? whose = null
    )
    {
        var file = new MemoryFile(bytes);
        var log = JobLog.Open(file);
        var said = await SaidAsync(log);
        foreach (var (what, text) in whole)
            Assert.True(said.GetValueOrDefault(what) == text || IsNamed(what, log), $"{how}: {what} is not named");
        foreach (var what in said.Keys)
            Assert.True(whole.ContainsKey(what), $"{how}: {what} was not there");
        Assert.True(file.Bytes.AsSpan().SequenceEqual(bytes), $"{how}: the file was changed");

        var named = log.Damages.Where(damage => damage.Of is not null).Select(damage => damage.Of!).ToHashSet();
        if (whose is not null)
            Assert.All(log.Damages.Where(damage => damage.Of is not null), damage =>
                Assert.True(
                    whose.Contains(damage.Of!)
                        || damage.Sentence.Contains("its car is not there", StringComparison.Ordinal),
                    $"{how}: {damage.Sentence}"
                )
            );
        await log.SaveCarAsync(CarNamed(30, "red pickup"), Stop);
        var job = await log.AddJobAsync(JobOf(30, 30), Stop);
        await log.AddEntriesAsync(job.Id, [Note(300)], Stop);
        Assert.True(file.Bytes.AsSpan(0, bytes.Length).SequenceEqual(bytes), $"{how}: something was overwritten");
        var again = JobLog.Open(file);
        Assert.Equal([Note(300)], (await again.RecordAsync(job.Number, Stop))!.Journal.All);
        await SaidAsync(again);
        Assert.True(
            named.SetEquals(again.Damages.Where(damage => damage.Of is not null).Select(damage => damage.Of!)),
            $"{how}: after more work others are named than before"
        );
    }

    [Fact]
    public async Task Of_400_changed_letters_none_goes_unseen_and_none_stops_the_work()
    {
        var (bytes, after) = await ToldAsync();
        var whole = await SaidAsync(JobLog.Open(new MemoryFile(bytes)));
        var chance = new Random(20310704);
        for (var i = 0; i < 400; i++)
        {
            var (at, to) = (chance.Next(bytes.Length), (byte)chance.Next(256));
            if (bytes[at] == to)
                to ^= 1;
            var changed = bytes.ToArray();
            changed[at] = to;
            var line = after.Last(one => one.Length <= at).Length;
            line = line == 0 ? LogLine.Head.Length + 1 : line;
            var end = line + bytes.AsSpan((int)line).IndexOf((byte)'\n');
            var whose = LogLine.Read(bytes.AsSpan((int)line..(int)end))!.Value.Line.Of;
            await HoldsAsync(whole, changed, $"byte {at} made {to}", whose);
        }
    }

    [Fact]
    public async Task A_line_end_lost_or_put_into_the_middle_is_no_different()
    {
        var (bytes, _) = await ToldAsync();
        var whole = await SaidAsync(JobLog.Open(new MemoryFile(bytes)));
        for (var at = 0; at < bytes.Length; at++)
        {
            if (bytes[at] != '\n' && at % 37 != 0)
                continue;
            var changed = bytes.ToArray();
            changed[at] = (byte)(bytes[at] == '\n' ? 'x' : '\n');
            await HoldsAsync(whole, changed, $"the line's end at {at}");
        }
    }

    [Fact]
    public async Task A_line_taken_out_or_wiped_is_missed_and_the_line_behind_it_says_whose_it_was()
    {
        var (bytes, after) = await ToldAsync();
        var whole = await SaidAsync(JobLog.Open(new MemoryFile(bytes)));
        // Lines without photos behind them, and not the last: nothing stands behind that.
        for (var i = 2; i < Acts.Length; i++)
        {
            var (from, to) = ((int)after[i - 1].Length, (int)after[i].Length);
            await HoldsAsync(whole, [.. bytes[..from], .. bytes[to..]], $"act {i} taken out");
            await HoldsAsync(
                whole,
                [.. bytes[..from], .. Enumerable.Repeat((byte)0, to - from), .. bytes[to..]],
                $"act {i} wiped"
            );
        }
    }

    [Fact]
    public async Task A_job_with_a_changed_letter_is_named_refused_and_keeps_its_number()
    {
        var (bytes, _) = await ToldAsync();
        var changed = bytes.ToArray();
        changed[Find(bytes, "note 2:")] = (byte)'m';
        var log = JobLog.Open(new MemoryFile(changed));
        var damage = Assert.Single(log.Damages);
        Assert.Equal(new LogSubject(LogSubject.Job, Id(3, 1), 1), damage.Of);
        Assert.StartsWith(
            "Job 1 cannot be read: a line of it is not as it was written down (byte ",
            damage.Sentence,
            StringComparison.Ordinal
        );
        Assert.Equal(
            damage.Sentence,
            (await Assert.ThrowsAsync<LogStoreException>(() => log.RecordAsync(1, Stop))).Message
        );
        await Assert.ThrowsAsync<LogStoreException>(() => log.EntryCountAsync(1, Stop));
        await Assert.ThrowsAsync<LogStoreException>(() => log.AddEntriesAsync(Id(3, 1), [Note(50)], Stop));
        await Assert.ThrowsAsync<LogStoreException>(() => log.AddJobAsync(JobOf(1, 1), Stop));
        await Assert.ThrowsAsync<LogStoreException>(async () =>
        {
            await foreach (var _ in log.RecordsAsync(null, null, Stop)) { }
        });
        Assert.DoesNotContain((await log.JobsAsync(new(), Stop)).Jobs, job => job.Number == 1);
        // Another job's car is not asked for it, and its own number is not given again.
        await foreach (var record in log.RecordsAsync(Id(1, 2), null, Stop))
            Assert.Equal(2, record.Job.Number);
        Assert.Equal(5, (await log.AddJobAsync(JobOf(31, 2), Stop)).Number);
    }

    [Fact]
    public async Task A_damaged_job_comes_back_from_an_exported_file_under_its_own_number()
    {
        var (bytes, after) = await ToldAsync();
        var sound = JobLog.Open(new MemoryFile(bytes));
        var exported = (await sound.RecordAsync(1, Stop))! with
        {
            Photos = [.. await sound.PhotosAsync(Id(3, 1), Stop)],
        };
        var changed = bytes.ToArray();
        changed[Find(bytes, "note 2:")] = (byte)'m';
        var file = new MemoryFile(changed);
        Assert.Equal(
            1,
            (await JobLog.Open(file).MergeAsync(exported with { Job = exported.Job with { Number = 9 } }, Stop)).Number
        );
        var log = JobLog.Open(file);
        Assert.Empty(log.Damages);
        Assert.Equal(after[^1].Answers, await AskAsync(log));
    }

    [Fact]
    public async Task A_damaged_car_takes_its_jobs_with_it_until_it_is_saved_again()
    {
        var (bytes, after) = await ToldAsync();
        var changed = bytes.ToArray();
        changed[Find(bytes, "green estate")] = (byte)'G';
        var file = new MemoryFile(changed);
        var log = JobLog.Open(file);
        Assert.Null(await log.CarAsync(Id(1, 1), Stop));
        Assert.Equal(
            [(LogSubject.Car, 0), (LogSubject.Job, 1), (LogSubject.Job, 4)],
            log.Damages.Select(damage => (damage.Of!.What, damage.Of.Number)).Order()
        );
        await log.SaveCarAsync(CarNamed(1, "green estate"), Stop);
        Assert.Empty(log.Damages);
        Assert.Equal(after[^1].Answers, await AskAsync(JobLog.Open(file)));
    }

    [Fact]
    public async Task A_photo_that_is_not_as_it_was_kept_is_left_out_and_named_when_somebody_asks_for_it()
    {
        var (bytes, _) = await ToldAsync();
        var changed = bytes.ToArray();
        var at = Find(bytes, Convert.ToBase64String(Story.Picture(6, Note(90)).Body.AsSpan())) + 5;
        changed[at] = (byte)(bytes[at] == 'A' ? 'B' : 'A');
        var log = JobLog.Open(new MemoryFile(changed));
        Assert.Empty(log.Damages);
        await log.CheckPhotosAsync(Stop);
        Assert.Contains(
            $"The photo {Id(5, 6)} of job 3 is not as it was kept",
            Assert.Single(log.Damages).Sentence,
            StringComparison.Ordinal
        );
        Assert.Equal([Id(5, 7), Id(5, 8)], (await log.PhotosAsync(Id(3, 9), Stop)).Select(photo => photo.Id));
        await Assert.ThrowsAsync<LogStoreException>(() => log.PhotoAsync(Id(3, 9), Id(5, 6), Stop));
        Assert.Equal(3, (await log.PhotoListAsync(Id(3, 9), Stop)).Count);
    }

    [Fact]
    public void Any_bytes_are_no_log_and_are_left_as_they_are() =>
        Gen.Select(Gen.Byte.Array[1, 3000], Gen.Bool, Gen.Bool)
            .Sample(
                (garbage, withHead, withMarks) =>
                {
                    byte[] bytes =
                    [
                        .. withHead ? Encoding.UTF8.GetBytes(LogLine.Head + "\n") : [],
                        .. withMarks ? LogLine.Begin.ToArray() : [],
                        .. garbage,
                    ];
                    var file = new MemoryFile(bytes);
                    try
                    {
                        var log = JobLog.Open(file);
                        // Only an end without a line's end is cut.
                        Assert.True(bytes.AsSpan().StartsWith(file.Bytes));
                        Assert.True(log.Torn is not null || log.Damages.Length > 0);
                    }
                    catch (LogStoreException)
                    {
                        Assert.False(withHead);
                        Assert.Equal(bytes, file.Bytes);
                    }
                }
            );

    [Fact]
    public async Task Stretches_of_any_bytes_in_the_middle_never_stop_the_opening_and_what_is_said_is_true()
    {
        var (bytes, _) = await ToldAsync();
        var whole = await SaidAsync(JobLog.Open(new MemoryFile(bytes)));
        Gen.Select(Gen.Int[0, bytes.Length - 1], Gen.Byte.Array[1, 900])
            .Sample(
                (at, stretch) =>
                {
                    var changed = bytes.ToArray();
                    stretch.AsSpan(0, Math.Min(stretch.Length, bytes.Length - at)).CopyTo(changed.AsSpan(at));
                    var log = JobLog.Open(new MemoryFile(changed));
                    var said = SaidAsync(log).Result;
                    // Where it cannot be told whose it was, that is said instead.
                    var known =
                        log.Torn is null && log.Damages.All(damage => damage.Of is not null || IsOfPhoto(damage));
                    foreach (var (what, text) in said)
                        Assert.True(whole.GetValueOrDefault(what) == text || !known || IsNamed(what, log), what);
                    foreach (var what in whole.Keys.Except(said.Keys))
                        Assert.True(!known || IsNamed(what, log), what);
                },
                iter: 400
            );
    }

    private static bool IsOfPhoto(LogDamage damage) =>
        damage.Sentence.StartsWith("The photo", StringComparison.Ordinal);

    [Fact]
    public async Task A_log_of_a_newer_program_is_refused_and_left_as_it_is()
    {
        var (bytes, _) = await ToldAsync();
        var newer = Encoding.UTF8.GetBytes(LogLine.Head.Replace("1", "2", StringComparison.Ordinal) + "\n");
        // A newer line stands on the newer head; this one is no line here.
        var file = new MemoryFile([.. newer, .. "{\"digest\":\"of another kind\"}\n"u8]);
        Assert.Contains(
            "newer Tightcold",
            Assert.Throws<LogStoreException>(() => JobLog.Open(file)).Message,
            StringComparison.Ordinal
        );
        Assert.Equal(0, file.Writes);
        // The same letter changed in a log of this version is told by the line behind it.
        var log = JobLog.Open(new MemoryFile([.. newer, .. bytes[newer.Length..]]));
        Assert.StartsWith("The first line of the log", Assert.Single(log.Damages).Sentence, StringComparison.Ordinal);
        Assert.Equal(4, (await log.JobsAsync(new(), Stop)).Jobs.Length);
    }

    private static int Find(byte[] bytes, string text)
    {
        var at = bytes.AsSpan().IndexOf(Encoding.UTF8.GetBytes(text));
        Assert.True(at > 0, text);
        return at;
    }
}
