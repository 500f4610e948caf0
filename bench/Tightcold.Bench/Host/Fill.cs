using System.Globalization;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Quantities;
using Tightcold.Storage;
using Tightcold.Storage.Engines;
using Tightcold.Storage.Mapping;

namespace Tightcold.Bench.Host;

/// <summary>Years of a workshop's jobs, written straight into the tables: some open, some waiting, the rest
/// closed.</summary>
internal static class Fill
{
    private const int Open = 20,
        Waiting = 60,
        Batch = 1000;
    private static readonly string[] Colours = ["blue", "grey", "white", "red", "green", "black"];
    private static readonly string[] Bodies = ["estate", "hatchback", "van", "saloon", "pick-up", "coupé"];
    private static readonly string[] Complaints =
    [
        "blows warm at idle",
        "cold only when driving",
        "hisses after switching off",
        "was filled last summer, warm again",
        "clutch clicks and drops out",
        "smells of oil, no cold air",
    ];
    private static readonly DateTimeOffset Start = new(2016, 3, 1, 8, 0, 0, TimeSpan.FromHours(1));

    public static async Task JobsAsync(DataPlace place, int jobs, CancellationToken cancellation)
    {
        (await JobStore.OpenAsync(place, cancellation).ConfigureAwait(false)).Dispose();
        using Engine engine = place.Connection is { } connection
            ? new PostgresEngine(connection)
            : new SqliteEngine(DataFolder.DataFile(place.Folder));
        var chance = new Random(20310704);
        Car? car = null;
        for (var first = 1; first <= jobs; first += Batch)
        {
            var database = engine.Open();
            await using (database.ConfigureAwait(false))
            {
                database.ChangeTracker.AutoDetectChangesEnabled = false;
                for (var number = first; number < Math.Min(first + Batch, jobs + 1); number++)
                {
                    // Every second or third job is of a car that was here before.
                    if (car is null || chance.NextDouble() < 0.6)
                    {
                        car = NewCar(chance, number);
                        database.Add(RowText.Row(car));
                    }
                    var state =
                        number > jobs - Open ? "open"
                        : number > jobs - Open - Waiting ? "waiting"
                        : "closed";
                    Add(database, car, number, state, chance);
                }
                await database.SaveChangesAsync(cancellation).ConfigureAwait(false);
            }
        }
    }

    /// <summary>A job with one long journal, for a page that has much to say.</summary>
    public static async Task<int> LongJobAsync(JobStore store, int entries, CancellationToken cancellation)
    {
        var car = NewCar(new Random(1), 1);
        await store.SaveCarAsync(car, cancellation).ConfigureAwait(false);
        var job = await store
            .AddJobAsync(new Job(Guid.CreateVersion7(), car.Id, 0, "blows warm at idle", Start, 7), cancellation)
            .ConfigureAwait(false);
        var journal = Typical(Start, "open")
            .Take(3)
            .Concat(
                Enumerable
                    .Range(0, entries - 3)
                    .Select(i => i % 10 == 0 ? Note(Start.AddMinutes(20 + i), i) : Vacuum(Start.AddMinutes(20 + i), i))
            );
        await store.AddEntriesAsync(job.Id, [.. journal], cancellation).ConfigureAwait(false);
        return job.Number;
    }

    private static Car NewCar(Random chance, int number) =>
        new(
            Guid.CreateVersion7(),
            FieldBag
                .Empty.With(
                    "label",
                    new FieldValue.Text(
                        string.Create(
                            CultureInfo.InvariantCulture,
                            $"{Colours[chance.Next(Colours.Length)]} {Bodies[chance.Next(Bodies.Length)]} {number:X}"
                        )
                    )
                )
                .With("refrigerant", new FieldValue.Text(chance.NextDouble() < 0.7 ? "R-134a" : "R-1234yf"))
                .With("label-charge", Mass(0.45 + 0.4 * chance.NextDouble()))
        );

    private static void Add(JournalDatabase database, Car car, int number, string state, Random chance)
    {
        var opened = Start.AddMinutes(45 * number);
        var row = RowText.Row(
            new Job(
                Guid.CreateVersion7(),
                car.Id,
                number,
                Complaints[chance.Next(Complaints.Length)],
                opened,
                chance.Next()
            ),
            null
        );
        var line = JobLines.New(row, car.Label);
        var digest = JournalChain.Start(RowText.Job(row));
        foreach (var entry in Typical(opened, state))
        {
            var entryRow = RowText.Row(row.Id, entry);
            entryRow.Sequence = ++line.Entries;
            entryRow.Digest = digest = JournalChain.Next(digest, entry);
            line.LastEntryAt = entry.ObservedAt;
            database.Add(entryRow);
        }
        line.State = state;
        line.WaitingFor = state == "waiting" ? "condenser" : null;
        JobLines.Name(line, car.Label);
        database.Add(row);
        database.Add(line);
    }

    private static IEnumerable<Entry> Typical(DateTimeOffset opened, string state)
    {
        yield return New(
            EntryKinds.Weather,
            opened.AddMinutes(2),
            Bag(
                ("ambient-temperature", Of(QuantityKind.Temperature, 303.15, "30 °C")),
                ("relative-humidity", Of(QuantityKind.RelativeHumidity, 0.5, "50 %"))
            )
        );
        yield return New(
            EntryKinds.StandingReading,
            opened.AddMinutes(5),
            Bag(
                ("low-side", Of(QuantityKind.GaugePressure, 480_000, "4.8 bar")),
                ("high-side", Of(QuantityKind.GaugePressure, 480_000, "4.8 bar")),
                ("ambient-temperature", Of(QuantityKind.Temperature, 303.15, "30 °C"))
            )
        );
        yield return Note(opened.AddMinutes(9), 0);
        yield return New(
            EntryKinds.VacuumReading,
            opened.AddMinutes(60),
            Bag(
                ("absolute-pressure", Of(QuantityKind.Vacuum, 66, "500 micron")),
                ("pump-valve", new FieldValue.Text("open"))
            )
        );
        if (state == "open")
            yield break;
        var said = Bag(("state", new FieldValue.Text(state)));
        yield return New(
            EntryKinds.JobState,
            opened.AddMinutes(90),
            state == "waiting" ? said.With("waiting-for", new FieldValue.Text("condenser")) : said
        );
    }

    private static Entry Note(DateTimeOffset at, int i) =>
        New(
            EntryKinds.Note,
            at,
            Bag(
                (
                    "text",
                    new FieldValue.Text(
                        string.Create(CultureInfo.InvariantCulture, $"oil mist at the condenser, note {i}")
                    )
                )
            )
        );

    private static Entry Vacuum(DateTimeOffset at, int i) =>
        New(
            EntryKinds.VacuumReading,
            at,
            Bag(
                (
                    "absolute-pressure",
                    Of(
                        QuantityKind.Vacuum,
                        60 + 0.2 * i,
                        string.Create(CultureInfo.InvariantCulture, $"{60 + 0.2 * i:0.##} Pa")
                    )
                ),
                ("pump-valve", new FieldValue.Text("shut"))
            )
        );

    private static Entry New(string kind, DateTimeOffset at, FieldBag fields) =>
        new(Guid.CreateVersion7(at), kind, at, at, "Ada", fields);

    private static FieldBag Bag(params ReadOnlySpan<(string Name, FieldValue Value)> fields)
    {
        var bag = FieldBag.Empty;
        foreach (var (name, value) in fields)
            bag = bag.With(name, value);
        return bag;
    }

    private static FieldValue.Quantity Of(QuantityKind kind, double si, string typed) =>
        new(new Measure(kind, si), typed, null);

    private static FieldValue.Quantity Mass(double kilograms) =>
        Of(
            QuantityKind.Mass,
            Math.Round(kilograms, 2),
            string.Create(CultureInfo.InvariantCulture, $"{kilograms * 1000:0} g")
        );
}
