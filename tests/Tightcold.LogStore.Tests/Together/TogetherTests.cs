using System.Text.Json.Nodes;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Exchange;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Json;
using Tightcold.Storage;
using static Tightcold.LogStore.Tests.Story;

namespace Tightcold.LogStore.Tests.Together;

/// <summary>A phone, another phone and a laptop of one workshop.</summary>
public sealed class TogetherTests : IAsyncLifetime
{
    private readonly string folder = Directory.CreateTempSubdirectory("tightcold-test-").FullName;
    private readonly Bay phone = Bay.OfPhone(1);
    private readonly Bay other = Bay.OfPhone(2);
    private Bay laptop = null!;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync() => laptop = await Bay.OfLaptopAsync(folder, 3);

    public ValueTask DisposeAsync()
    {
        laptop.Dispose();
        JobStore.Release();
        Directory.Delete(folder, recursive: true);
        return ValueTask.CompletedTask;
    }

    private static async Task<Car> CarAsync(Bay bay, string label = "blue estate") =>
        (
            await bay.Desk.AddCarAsync(
                new Dictionary<string, string> { ["label"] = label, ["refrigerant"] = "R-134a" },
                Stop
            )
        ).Value!;

    private static async Task<Car> ChangedAsync(Bay bay, Car car, string field, string text)
    {
        bay.Later(1);
        return (await bay.Desk.UpdateCarAsync(car.Id, new Dictionary<string, string> { [field] = text }, Stop)).Value!;
    }

    private static async Task<Job> JobAsync(Bay bay, Car car, params Entry[] entries)
    {
        var job = (await bay.Desk.OpenJobAsync(car.Id, "blows warm", Stop)).Value!;
        await bay.Store.AddEntriesAsync(job.Id, entries, Stop);
        return job;
    }

    private static async Task<JobRecord> OnlyAsync(Bay bay)
    {
        var records = new List<JobRecord>();
        await foreach (var record in bay.Store.RecordsAsync(null, null, Stop))
            records.Add(record);
        return Assert.Single(records);
    }

    private static async Task<string> GiveAsync(Bay from, Bay to, bool onlyLacking = true)
    {
        var file = await from.FileForAsync(to, onlyLacking);
        await to.TakeAsync(file);
        return file;
    }

    /// <summary>What is said of what a changed file leaves out.</summary>
    private static async Task<string[]> LeftOutAsync(Bay to, string file, Action<JsonNode> change)
    {
        var read = JsonNode.Parse(file)!;
        change(read);
        var taken = await to.Desk.ImportAllAsync(read.ToJsonString(), Stop);
        Assert.Empty(taken.Problems);
        return [.. taken.Value!.LeftOut.Select(said => said.ToString())];
    }

    private static async Task<string> RefusedAsync(Bay to, string file)
    {
        var before = await to.HeldAsync();
        var taken = await to.Desk.ImportAllAsync(file, Stop);
        Assert.False(taken.Taken);
        Assert.Equal(before, await to.HeldAsync());
        return taken.Problems[0].Sentence.ToString();
    }

    [Fact]
    public async Task A_store_without_a_job_yields_its_cars_and_every_version_of_its_kit()
    {
        await CarAsync(phone);
        await phone.Store.AddKitAsync(KitOf(1, "Ada"), Stop);
        await phone.Store.AddKitAsync(KitOf(2, "Ada"), Stop);
        foreach (var to in new[] { other, laptop })
        {
            await GiveAsync(phone, to, onlyLacking: false);
            Assert.Equal(await phone.HeldAsync(), await to.HeldAsync());
        }
    }

    [Fact]
    public async Task A_file_of_jobs_from_before_still_comes_in_each_job_with_the_kits_it_brings()
    {
        var record = FromElsewhere();
        var job = JobDocument.Write(record).TrimEnd();
        var old = $"{{\"format\": \"tightcold-jobs\", \"version\": 2, \"jobs\": [{job}]}}";
        foreach (var to in new[] { phone, laptop })
        {
            await to.TakeAsync(old);
            Assert.True((await OnlyAsync(to)).BringsKits);
            Assert.Equal(record.Journal.All, (await OnlyAsync(to)).Journal.All);
        }
        Assert.Contains(
            "written by a newer Tightcold",
            await RefusedAsync(phone, old.Replace("\"version\": 2", "\"version\": 3", StringComparison.Ordinal)),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task A_file_of_a_newer_program_is_refused_and_nothing_is_changed()
    {
        await CarAsync(phone);
        var file = await phone.FileForAsync(laptop, onlyLacking: false);
        Assert.Contains(
            "written by a newer Tightcold; this one reads version 1",
            await RefusedAsync(laptop, file.Replace("\"version\": 1", "\"version\": 2", StringComparison.Ordinal)),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task Of_two_changes_of_a_car_the_one_written_down_last_holds_whoever_hears_of_it_first()
    {
        var car = await CarAsync(phone);
        await GiveAsync(phone, other);
        await GiveAsync(phone, laptop);
        laptop.Later(60);
        var late = await ChangedAsync(laptop, car, "oil-amount", "120 mL");
        var early = await ChangedAsync(other, car, "oil-amount", "150 mL");
        await GiveAsync(laptop, phone);
        await GiveAsync(other, phone);
        await GiveAsync(other, laptop);
        await GiveAsync(laptop, other);
        Assert.NotEqual(early.Fields, late.Fields);
        foreach (var bay in new[] { phone, other, laptop })
            Assert.Equal(late, await bay.Store.CarAsync(car.Id, Stop));
    }

    [Fact]
    public async Task A_change_stands_behind_the_version_it_was_made_from_though_the_clock_was_set_back()
    {
        var car = await CarAsync(phone);
        await GiveAsync(phone, laptop);
        laptop.Later(-600);
        var changed = await ChangedAsync(laptop, car, "model-year", "2009");
        Assert.Equal(car.WrittenAt!.Value.AddTicks(1), changed.WrittenAt);
        await GiveAsync(laptop, phone);
        Assert.Equal(changed, await phone.Store.CarAsync(car.Id, Stop));
    }

    [Fact]
    public async Task A_car_saved_as_it_was_is_no_new_version()
    {
        var car = await CarAsync(phone);
        Assert.Equal(car, await ChangedAsync(phone, car, "label", "blue estate"));
    }

    [Fact]
    public async Task Two_versions_of_a_car_of_which_nobody_kept_the_moment_end_alike_everywhere()
    {
        var (one, two) = (CarNamed(1, "blue estate"), CarNamed(1, "green estate"));
        await phone.Store.SaveCarAsync(one, Stop);
        await laptop.Store.SaveCarAsync(two, Stop);
        await GiveAsync(phone, other);
        await GiveAsync(laptop, other);
        await GiveAsync(phone, laptop);
        await GiveAsync(laptop, phone);
        Assert.Equal(await phone.HeldAsync(), await laptop.HeldAsync());
        Assert.Equal(await phone.HeldAsync(), await other.HeldAsync());
        // What was written down with its moment holds before either, and what says no moment is none.
        var stamped = one.WrittenDown(Noon, null);
        Assert.True(CarVersion.Supersedes(stamped, one) && CarVersion.Supersedes(stamped, two));
        foreach (var words in new[] { "noon", "12:00", "9999-12-31T23:59:59.9999999Z", "" })
            Assert.Null((one with { Fields = one.Fields.With("written-at", new FieldValue.Text(words)) }).WrittenAt);
    }

    [Fact]
    public async Task A_job_that_comes_alone_brings_a_later_change_of_its_car_and_else_leaves_the_car_as_it_is()
    {
        var record = FromElsewhere();
        foreach (var to in new[] { phone, laptop })
        {
            await to.Store.SaveCarAsync(record.Car with { Fields = CarNamed(9, "van").Fields }, Stop);
            await to.Store.MergeAsync(record, Stop);
            Assert.Equal("van", (await to.Store.CarAsync(record.Car.Id, Stop))!.Label);
            await to.Store.MergeAsync(record with { Car = record.Car.WrittenDown(Noon, null) }, Stop);
            Assert.Equal("Bo's van", (await to.Store.CarAsync(record.Car.Id, Stop))!.Label);
            var found = await to.Store.JobsAsync(new() { Words = "Bo's" }, Stop);
            Assert.Equal("Bo's van", Assert.Single(found.Jobs).CarLabel);
        }
    }

    [Fact]
    public async Task Only_what_is_lacking_goes_a_photo_without_those_that_are_there_and_no_job_that_is_whole_there()
    {
        var car = await CarAsync(phone);
        var whole = await JobAsync(phone, car, Note(1));
        var growing = await JobAsync(phone, car, Note(2), Note(3));
        await phone.Store.AddPhotoAsync(growing.Id, Story.Picture(1, Note(2)) with { Body = Jpeg(1) }, Stop);
        await GiveAsync(phone, laptop);
        await phone.Store.AddPhotoAsync(growing.Id, Story.Picture(2, Note(3)) with { Body = Jpeg(2) }, Stop);
        var file = JsonNode.Parse(await GiveAsync(phone, laptop))!;
        Assert.Empty(file["cars"]!.AsArray());
        var job = Assert.Single(file["jobs"]!.AsArray())!;
        Assert.Equal($"{growing.Id}", $"{job["job"]!["id"]}");
        Assert.Equal($"{Id(5, 2)}", $"{Assert.Single(job["photos"]!.AsArray())!["id"]}");
        Assert.Equal(await phone.HeldAsync(), await laptop.HeldAsync());
        Assert.NotEqual(whole.Id, growing.Id);
    }

    private static System.Collections.Immutable.ImmutableArray<byte> Jpeg(byte which) =>
        [
            0xFF,
            0xD8,
            0xFF,
            0xC0,
            0,
            11,
            8,
            0,
            8,
            0,
            8,
            1,
            1,
            0x11,
            0,
            0xFF,
            0xDA,
            0,
            8,
            1,
            1,
            0,
            0,
            63,
            0,
            which,
            0xFF,
            0xD9,
        ];

    [Fact]
    public async Task Who_holds_more_lacks_nothing_and_is_sent_nothing()
    {
        var job = await JobAsync(phone, await CarAsync(phone), Note(1));
        await GiveAsync(phone, laptop);
        await laptop.Store.AddEntriesAsync(job.Id, [Note(2)], Stop);
        Assert.Empty(JsonNode.Parse(await phone.FileForAsync(laptop, onlyLacking: true))!["jobs"]!.AsArray());
        Assert.Single(JsonNode.Parse(await laptop.FileForAsync(phone, onlyLacking: true))!["jobs"]!.AsArray());
    }

    [Fact]
    public async Task A_journal_changed_by_hand_is_left_out_and_named_and_the_other_jobs_come_in()
    {
        var car = await CarAsync(phone);
        await JobAsync(phone, car, Note(1), Note(2));
        await JobAsync(phone, car, Note(3));
        var file = await phone.FileForAsync(laptop, onlyLacking: false);
        foreach (var to in new[] { other, laptop })
        {
            var said = Assert.Single(
                await LeftOutAsync(to, file, read => read["jobs"]![1]!["entries"]![1]!["who"] = "Bo")
            );
            Assert.Contains(
                "The job “blows warm, blue estate” of the file is left out: $.jobs[1]: $.chain",
                said,
                StringComparison.Ordinal
            );
            Assert.Contains("not as it was when the file was written", said, StringComparison.Ordinal);
            Assert.Equal([Note(3)], (await OnlyAsync(to)).Journal.All);
            // The same job from one who did not change it.
            await to.TakeAsync(file);
            Assert.Equal(await phone.HeldAsync(), await to.HeldAsync());
        }
    }

    [Fact]
    public async Task An_entry_that_is_here_with_other_content_is_refused_and_named_and_sent_again_until_it_is_settled()
    {
        var car = await CarAsync(phone);
        var job = await JobAsync(phone, car, Note(1));
        // Somebody wrote the data of the laptop anew, with its chain.
        await laptop.Store.SaveCarAsync(car, Stop);
        await laptop.Store.AddJobAsync(job, Stop);
        await laptop.Store.AddEntriesAsync(job.Id, [Note(1) with { Who = "Bo" }], Stop);
        foreach (var (from, to) in new[] { (phone, laptop), (laptop, phone) })
        {
            var said = Assert.Single(
                await LeftOutAsync(to, await from.FileForAsync(to, onlyLacking: true), read => { })
            );
            Assert.Contains("“blows warm, blue estate”", said, StringComparison.Ordinal);
            Assert.Contains($"{Note(1).Id}", said, StringComparison.Ordinal);
            Assert.Contains("two different entries carry this id", said, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task An_entry_of_another_job_and_a_job_of_another_car_do_not_come_in_under_an_id_that_is_here()
    {
        var car = await CarAsync(phone);
        await JobAsync(phone, car, Note(1));
        var file = await phone.FileForAsync(laptop, onlyLacking: false);
        await laptop.TakeAsync(file);
        void Without(JsonNode read) => read["jobs"]![0]!.AsObject().Remove("chain");
        Assert.Contains(
            "carries this id here and says something else",
            Assert.Single(await LeftOutAsync(laptop, file, read =>
                {
                    Without(read);
                    read["jobs"]![0]!["job"]!["complaint"] = "hisses";
                })),
            StringComparison.Ordinal
        );
        foreach (var to in new[] { phone, laptop })
        {
            var said = await LeftOutAsync(to, file, read =>
            {
                Without(read);
                read["jobs"]![0]!["job"]!["id"] = $"{Id(3, 77)}";
            });
            Assert.Contains($"Another entry with the id {Note(1).Id}", Assert.Single(said), StringComparison.Ordinal);
            Assert.Equal(await phone.HeldAsync(), await to.HeldAsync());
        }
    }

    [Fact]
    public async Task Another_version_of_the_kit_under_an_id_that_is_here_is_left_out_and_named()
    {
        await phone.Store.AddKitAsync(KitOf(1, "Ada"), Stop);
        await laptop.Store.AddKitAsync(KitOf(1, "Bo"), Stop);
        var said = await LeftOutAsync(laptop, await phone.FileForAsync(other, onlyLacking: false), read => { });
        Assert.Contains($"{Id(2, 1)}", Assert.Single(said), StringComparison.Ordinal);
        Assert.Equal("Bo", Assert.Single(await laptop.Store.KitsAsync(Stop)).Fields.Text("owner"));
    }

    [Fact]
    public async Task Each_store_gives_its_own_numbers_and_the_id_tells_two_jobs_apart()
    {
        var ours = await JobAsync(phone, await CarAsync(phone), Note(1));
        var theirs = await JobAsync(laptop, await CarAsync(laptop, "van"), Note(2));
        Assert.Equal((1, 1), (ours.Number, theirs.Number));
        await GiveAsync(phone, laptop);
        await GiveAsync(laptop, phone);
        foreach (var (bay, own, came) in new[] { (phone, ours, theirs), (laptop, theirs, ours) })
        {
            Assert.Equal(own.Id, (await bay.Store.RecordAsync(1, Stop))!.Job.Id);
            Assert.Equal(came.Id, (await bay.Store.RecordAsync(2, Stop))!.Job.Id);
        }
    }

    [Fact]
    public async Task Cans_stay_the_cans_of_one_workshop_wherever_its_jobs_are()
    {
        await phone.Store.AddKitAsync(KitOf(1, "Ada"), Stop);
        await laptop.Store.AddKitAsync(KitOf(2, "Ada"), Stop);
        var car = await CarAsync(phone);
        await JobAsync(phone, car, Weighed(3));
        await GiveAsync(phone, laptop);
        var next = await JobAsync(laptop, car);
        Assert.Single(await laptop.Store.ContainerUsesAsync(next.Number, 10, Stop));
        Assert.False((await laptop.Store.RecordAsync(1, Stop))!.BringsKits);
        await GiveAsync(laptop, phone);
        Assert.Equal(await phone.HeldAsync(), await laptop.HeldAsync());
    }

    [Fact]
    public async Task A_job_of_another_workshop_keeps_the_kit_it_came_with_on_the_way_through_ours()
    {
        await phone.Store.AddKitAsync(KitOf(9, "Ada"), Stop);
        await phone.Store.MergeAsync(FromElsewhere(), Stop);
        await GiveAsync(phone, laptop);
        await GiveAsync(laptop, other);
        Assert.Equal("Bo", (await OnlyAsync(other)).KitAt(Noon.AddDays(3)).Fields.Text("owner"));
        Assert.Equal(await phone.HeldAsync(), await other.HeldAsync());
    }

    [Fact]
    public async Task What_was_true_when_it_was_written_comes_in_though_car_and_kit_changed_since()
    {
        await phone.Store.AddKitAsync(KitOf(1, "Ada"), Stop);
        var car = await CarAsync(phone);
        var looked = Note(4) with
        {
            Kind = EntryKinds.LeakCheck,
            Fields = FieldBag
                .Empty.With("spot", new FieldValue.Text("receiver-drier"))
                .With("test", new FieldValue.Text("soap bubbles"))
                .With("outcome", new FieldValue.Text("nothing")),
        };
        await JobAsync(phone, car, Weighed(3), looked);
        await ChangedAsync(phone, car, "device", "orifice tube");
        // The laptop's kit of later days never had the can.
        await laptop.Store.AddKitAsync(KitOf(2, "Ada") with { Containers = [] }, Stop);
        await laptop.Store.AddKitAsync(KitOf(3, "Ada") with { Containers = [], From = Noon.AddMinutes(-5) }, Stop);
        await GiveAsync(phone, laptop);
        await GiveAsync(laptop, phone);
        Assert.Equal(await phone.HeldAsync(), await laptop.HeldAsync());
        // Without its chain nobody vouches for it: it is held to what a form is held to.
        var said = await LeftOutAsync(other, await phone.FileForAsync(other, onlyLacking: false), read =>
            read["jobs"]![0]!.AsObject().Remove("chain")
        );
        Assert.Contains(said, sentence => sentence.Contains("spots of this car are", StringComparison.Ordinal));
        // A job that comes by itself, with its chain, is taken as it was written.
        var alone = await other.Desk.ImportAsync(
            await phone.Desk.ExportAsync((await phone.Store.RecordAsync(1, Stop))!, Stop),
            Stop
        );
        Assert.True(alone.Taken, string.Join(' ', alone.Problems.Select(problem => problem.Sentence)));
    }

    [Fact]
    public async Task What_can_hurt_does_not_come_in_with_a_chain_either()
    {
        var opened = Note(1) with
        {
            Kind = EntryKinds.ContainerMoved,
            Fields = FieldBag
                .Empty.With("container", new FieldValue.Text("A"))
                .With("action", new FieldValue.Text("opened"))
                .With("side", new FieldValue.Text("high side")),
        };
        await phone.Store.AddKitAsync(KitOf(1, "Ada"), Stop);
        await JobAsync(phone, await CarAsync(phone), opened);
        var said = await LeftOutAsync(laptop, await phone.FileForAsync(laptop, onlyLacking: true), read => { });
        Assert.Contains("a can is never opened to the high side", Assert.Single(said), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_full_phone_keeps_what_came_whole_and_the_same_file_finishes_it()
    {
        var car = await CarAsync(laptop);
        for (var i = 0; i < 5; i++)
            await JobAsync(laptop, car, Note(10 + i));
        var file = await laptop.FileForAsync(phone, onlyLacking: false);
        await phone.TakeInPartAsync(file, 2000, 0);
        phone.Reopen();
        Assert.InRange((await phone.Desk.JobsAsync(Stop)).Count, 1, 4);
        await phone.TakeAsync(file);
        Assert.Equal(await laptop.HeldAsync(), await phone.HeldAsync());
    }

    [Fact]
    public async Task As_many_photos_as_two_devices_may_take_come_together_in_both()
    {
        var job = await JobAsync(phone, await CarAsync(phone), Note(1));
        await GiveAsync(phone, laptop);
        for (var i = 0; i < 30; i++)
        {
            await phone.Store.AddPhotoAsync(job.Id, Story.Picture(i, Note(1)) with { Body = Jpeg((byte)i) }, Stop);
            await laptop.Store.AddPhotoAsync(
                job.Id,
                Story.Picture(100 + i, Note(1)) with
                {
                    Body = Jpeg((byte)(100 + i)),
                },
                Stop
            );
        }
        await GiveAsync(phone, laptop);
        await GiveAsync(laptop, phone);
        await GiveAsync(phone, other);
        Assert.Equal(60, (await other.Store.PhotoListAsync(job.Id, Stop)).Count);
        Assert.Equal(await phone.HeldAsync(), await laptop.HeldAsync());
    }

    [Fact]
    public async Task In_small_parts_the_other_gets_the_same_job_by_job_and_photo_by_photo()
    {
        const int Most = 600;
        var car = await CarAsync(phone);
        for (var i = 0; i < 4; i++)
        {
            var note = Note(i + 1);
            var job = await JobAsync(phone, car, note);
            for (var j = 0; j < 5; j++)
                await phone.Store.AddPhotoAsync(
                    job.Id,
                    Story.Picture((10 * i) + j, note) with
                    {
                        Body = Jpeg((byte)((10 * i) + j)),
                    },
                    Stop
                );
        }
        var parts = 0;
        while (await phone.HeldAsync() != await laptop.HeldAsync())
        {
            var (held, _) = TallyDocument.Read(await Bay.TextAsync(laptop.Desk.TallyAsync(Stop)));
            var file = await Bay.TextAsync(phone.Desk.ExportAllAsync(held!, Most, Stop));
            // A part ends behind the job that filled it.
            Assert.Single(JsonNode.Parse(file)!["jobs"]!.AsArray());
            await laptop.TakeAsync(file);
            Assert.True(++parts < 100, "the parts never end");
        }
        Assert.True(parts >= 4);
        var (all, _) = TallyDocument.Read(await Bay.TextAsync(laptop.Desk.TallyAsync(Stop)));
        Assert.Empty(
            JsonNode.Parse(await Bay.TextAsync(phone.Desk.ExportAllAsync(all!, Most, Stop)))!["jobs"]!.AsArray()
        );
    }

    [Fact]
    public async Task A_tally_that_is_none_is_refused_with_the_path_of_what_is_wrong()
    {
        await JobAsync(phone, await CarAsync(phone), Note(1));
        var tally = await Bay.TextAsync(phone.Desk.TallyAsync(Stop));
        Assert.NotNull(TallyDocument.Read(tally).Tally);
        foreach (
            var (from, to, said) in new[]
            {
                (
                    "\"tightcold-tally\"",
                    "\"tightcold-job\"",
                    "$.format: “tightcold-job” is not taken: “tightcold-tally” is needed."
                ),
                ("\"version\": 1", "\"version\": 2", "written by a newer Tightcold"),
                ("\"version\": 1", "\"version\": 0", "version 1 is needed"),
                ("\"sum\":\"", "\"sum\":\"x", "$.cars[0].sum"),
                ($"{Note(1).Id}", "no id", "$.jobs[0].entries[0]"),
                ("\"photos\":[]", "\"photos\":7", "$.jobs[0].photos"),
                ("\"kits\": []", "\"kit\": []", "$.kit"),
            }
        )
        {
            Assert.Contains(from, tally, StringComparison.Ordinal);
            var (none, problems) = TallyDocument.Read(tally.Replace(from, to, StringComparison.Ordinal));
            Assert.Null(none);
            Assert.Contains(problems, problem => problem.Sentence.ToString().Contains(said, StringComparison.Ordinal));
        }
    }

    [Fact]
    public async Task Any_file_with_a_letter_changed_is_taken_refused_or_left_out_and_never_more()
    {
        await phone.Store.AddKitAsync(KitOf(1, "Ada"), Stop);
        await JobAsync(phone, await CarAsync(phone), Note(1));
        var file = await phone.FileForAsync(other, onlyLacking: false);
        var tally = await Bay.TextAsync(phone.Desk.TallyAsync(Stop));
        for (var at = 0; at < file.Length; at += 3)
        {
            var bay = Bay.OfPhone(4);
            foreach (var letter in "]\"0x")
                await bay.Desk.ImportAllAsync($"{file[..at]}{letter}{file[(at + 1)..]}", Stop);
            Assert.InRange((await bay.Desk.JobsAsync(Stop)).Count, 0, 2);
        }
        for (var at = 0; at < tally.Length; at++)
            foreach (var letter in "]\"0x")
                TallyDocument.Read($"{tally[..at]}{letter}{tally[(at + 1)..]}");
    }
}
