using System.Text.Json;
using CsCheck;
using Tightcold.App.Desk;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Exchange;
using Tightcold.Jobs.Json;
using Tightcold.Storage;

namespace Tightcold.LogStore.Tests.Together;

/// <summary>The law of an exchange: whoever wrote what and whoever gave it to whom, in the end all hold the same, and
/// nothing that was acknowledged is missing.</summary>
public sealed class TogetherLaws
{
    private const int Bays = 3;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    /// <param name="Which">What is done: written, or exchanged.</param>
    /// <param name="Who">Which bay.</param>
    private sealed record Act(int Which, int Who, int One, int Other);

    private static readonly Gen<Act[]> Acts = Gen.Select(
        Gen.Int[0, 24],
        Gen.Int[0, Bays - 1],
        Gen.Int[0, 1000],
        Gen.Int[0, 1000],
        (which, who, one, other) => new Act(which, who, one, other)
    ).Array[90];

    private static readonly byte[] Jpeg =
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
    ];

    private readonly Dictionary<Guid, Car> newest = [];
    private int exchanges;

    [Fact]
    public async Task However_they_write_and_exchange_in_the_end_all_hold_the_same_and_nothing_is_lost()
    {
        await Acts.SampleAsync(AgreesAsync, iter: 19, threads: 1);
        Assert.True(exchanges >= 1000, $"only {exchanges} exchanges");
    }

    private async Task AgreesAsync(Act[] acts)
    {
        var folder = Directory.CreateTempSubdirectory("tightcold-test-").FullName;
        var bays = new List<Bay> { Bay.OfPhone(1), Bay.OfPhone(2), await Bay.OfLaptopAsync(folder, 3) };
        var written = new HashSet<string>(StringComparer.Ordinal);
        newest.Clear();
        try
        {
            // A phone that is at work for a while, with cans and a car.
            foreach (var (which, one) in new[] { (0, 1), (3, 0), (3, 1), (3, 2), (4, 0), (4, 1), (6, 0), (6, 1) })
                await WriteAsync(bays[0], new(which, 0, one, which == 3 ? 1 : which == 4 ? one : 1 + one), written);
            foreach (var act in acts)
                if (act.Which < 11)
                    await WriteAsync(bays[act.Who], act, written);
                else
                    await ExchangeAsync(bays[act.Who], bays[(act.Who + 1 + (act.One % (Bays - 1))) % Bays], act);
            Assert.InRange(await SettleAsync(bays), 0, 4);

            var held = await bays[0].HeldAsync();
            foreach (var bay in bays)
                Assert.Equal(held, await bay.HeldAsync());
            Assert.Empty(written.Except(held.Split('\n')));
            foreach (var car in newest.Values)
                Assert.Contains(
                    "car " + JobDocument.OnOneLine(JobDocument.WriteCar(car)),
                    held,
                    StringComparison.Ordinal
                );
            await RepeatAsync(bays);
        }
        finally
        {
            foreach (var bay in bays)
                bay.Dispose();
            JobStore.Release();
            Directory.Delete(folder, recursive: true);
        }
    }

    /// <summary>Each gives each what he lacks, until nothing is lacking.</summary>
    private async Task<int> SettleAsync(List<Bay> bays)
    {
        for (var round = 0; ; round++)
        {
            var lacking = 0;
            foreach (var from in bays)
            foreach (var to in bays.Where(to => to != from))
            {
                var file = await from.FileForAsync(to, onlyLacking: true);
                if (IsEmpty(file))
                    continue;
                lacking++;
                exchanges++;
                await to.TakeAsync(file);
            }
            if (lacking == 0 || round > 9)
                return round;
        }
    }

    private static bool IsEmpty(string file)
    {
        using var read = JsonDocument.Parse(file);
        return new[] { "cars", "kits", "jobs" }.All(name => read.RootElement.GetProperty(name).GetArrayLength() == 0);
    }

    /// <summary>Everything once more, to everybody: nothing changes.</summary>
    private async Task RepeatAsync(List<Bay> bays)
    {
        var before = await bays[0].HeldAsync();
        foreach (var to in bays)
        {
            var (length, cars) = (to.Disk?.Length, await to.Store.StampsAsync(Stop));
            foreach (var from in bays)
            {
                exchanges++;
                await to.TakeAsync(await from.FileForAsync(to, onlyLacking: false));
            }
            Assert.Equal(length, to.Disk?.Length);
            Assert.Equal(cars, await to.Store.StampsAsync(Stop));
            Assert.Equal(before, await to.HeldAsync());
            to.Reopen();
            Assert.Equal(before, await to.HeldAsync());
        }
    }

    private async Task ExchangeAsync(Bay from, Bay to, Act act)
    {
        exchanges++;
        var file = await from.FileForAsync(to, act.Which % 3 != 0);
        switch (act.Which)
        {
            case 17:
                // The way of the file itself broke off: it is refused whole.
                var (cut, before) = (file[..(act.Other % (file.Length - 2))], await to.HeldAsync());
                Assert.False((await to.Desk.ImportAllAsync(cut, Stop)).Taken);
                Assert.Equal(before, await to.HeldAsync());
                break;
            case 18:
                await to.TakeInPartAsync(file, act.Other * 20, act.Other % 6);
                to.Reopen();
                break;
            case 19:
                await to.TakeInPartAsync(file, -1, act.Other % 6);
                break;
            default:
                await to.TakeAsync(file);
                break;
        }
    }

    /// <summary>One thing that a person does; what was acknowledged is noted.</summary>
    private async Task WriteAsync(Bay bay, Act act, HashSet<string> written)
    {
        // Clocks run on, and now and then one is set back.
        bay.Later(act.One % 20 == 0 ? -90 : 1 + (act.Other % 30));
        var desk = bay.Desk;
        var cars = await bay.Store.CarsAsync(Stop);
        var jobs = (await desk.JobsAsync(Stop)).OrderBy(job => job.Id).ToList();
        var job = jobs.Count == 0 ? null : jobs[act.One % jobs.Count];
        switch (act.Which)
        {
            case 0:
                Note(
                    await desk.AddCarAsync(
                        Texts(("label", $"estate {act.One % 9} {act.Who}"), ("refrigerant", "R-134a")),
                        Stop
                    )
                );
                break;
            case 1 or 2 when cars.Count > 0:
                var car = cars.OrderBy(one => one.Id).ElementAt(act.One % cars.Count);
                Note(
                    await desk.UpdateCarAsync(
                        car.Id,
                        act.Other % 3 == 0
                            ? Texts(("label", $"van {act.Other}"))
                            : Texts(("oil-amount", $"{100 + (act.Other % 50)} mL"), ("device", Device(act.Other))),
                        Stop
                    )
                );
                break;
            case 3:
                if (
                    (
                        act.Other % 2 == 0
                            ? await desk.UpdateKitAsync(
                                Texts(("altitude", $"{act.Other} m"), ("owner", $"Ada {act.Who}")),
                                null,
                                Stop
                            )
                            : await desk.AddContainerAsync(
                                Texts(
                                    ("name", $"{(char)('A' + (act.One % 3))}"),
                                    ("kind", "can"),
                                    ("refrigerant", "R-134a"),
                                    ("tare", $"{100 + (act.Other % 60)} g")
                                ),
                                null,
                                Stop
                            )
                    ).Value is
                    { } kit
                )
                    written.Add("kit " + JobDocument.OnOneLine(JobDocument.WriteKit(kit)));
                break;
            case 4 or 5 when cars.Count > 0:
                var opened = await desk.OpenJobAsync(
                    cars.OrderBy(one => one.Id).ElementAt(act.One % cars.Count).Id,
                    $"blows warm {act.Other}",
                    Stop
                );
                var said = JobDocument.WriteJob(opened.Value! with { Number = 0 });
                written.Add($"job {JobDocument.OnOneLine(said)} of {opened.Value.CarId}");
                break;
            case >= 6 and <= 8 when job is not null:
                Note(written, job.Id, await EntryAsync(desk, job.Number, act));
                break;
            case 9 when job is not null:
                var record = (await desk.RecordAsync(job.Number, Stop))!;
                if (record.Journal.All is { Length: > 0 } all)
                    Note(
                        written,
                        job.Id,
                        await desk.StrikeAsync(job.Number, all[act.Other % all.Length].Id, "Ada", "another car", Stop)
                    );
                break;
            case 10 when job is not null:
                record = (await desk.RecordAsync(job.Number, Stop))!;
                if (record.Journal.All is not { Length: > 0 } some)
                    break;
                var photo = await desk.AddPhotoAsync(
                    record,
                    some[act.Other % some.Length].Id,
                    new byte[][] { Jpeg, [(byte)act.One, (byte)act.Other, 0xFF, 0xD9] }
                        .SelectMany(b => b)
                        .ToArray(),
                    null,
                    Stop
                );
                if (photo.Value is { } kept)
                    written.Add(Bay.Line(job.Id, kept));
                break;
        }
    }

    private static string Device(int which) => which % 2 == 0 ? Car.OrificeTube : Car.ExpansionValve;

    private static Task<Outcome<Entry>> EntryAsync(JobDesk desk, int job, Act act) =>
        (act.Other % 4) switch
        {
            0 => desk.AddEntryAsync(
                job,
                EntryKinds.Note,
                Texts(("text", $"é “{act.One}”")),
                null,
                "Ada",
                null,
                null,
                null,
                Stop
            ),
            // Names that the next change of the kit or of the car may take away.
            1 => desk.AddEntryAsync(
                job,
                EntryKinds.ScaleReading,
                Texts(("container", $"{(char)('A' + (act.One % 3))}"), ("gross", $"{130 + (act.One % 300)} g")),
                null,
                "Ada",
                null,
                null,
                null,
                Stop
            ),
            2 => desk.AddEntryAsync(
                job,
                EntryKinds.LeakCheck,
                Texts(
                    ("spot", act.One % 2 == 0 ? "receiver-drier" : "orifice tube joint"),
                    ("test", "soap bubbles"),
                    ("outcome", "nothing")
                ),
                null,
                "Ada",
                null,
                null,
                null,
                Stop
            ),
            _ => desk.AddEntryAsync(
                job,
                EntryKinds.JobState,
                Texts(("state", act.One % 2 == 0 ? "waiting" : "closed")),
                null,
                "Ada",
                null,
                null,
                null,
                Stop
            ),
        };

    /// <summary>Of the versions of a car the one that was written down last holds in the end.</summary>
    private void Note(Outcome<Car> outcome)
    {
        if (
            outcome.Value is { } car
            && (!newest.TryGetValue(car.Id, out var there) || CarVersion.Supersedes(car, there))
        )
            newest[car.Id] = car;
    }

    private static void Note(HashSet<string> written, Guid job, Outcome<Entry> outcome)
    {
        if (outcome.Value is { } entry)
            written.Add($"entry of {job} {JobDocument.OnOneLine(JobDocument.WriteEntry(entry))}");
    }

    private static Dictionary<string, string> Texts(params (string Name, string Text)[] texts) =>
        texts.ToDictionary(one => one.Name, one => one.Text);
}
