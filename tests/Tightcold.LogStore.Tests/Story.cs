using System.Collections.Immutable;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Kits;
using Tightcold.Jobs.Photos;
using Tightcold.Quantities;

namespace Tightcold.LogStore.Tests;

/// <summary>A few days of a workshop: every kind of act, some of them twice.</summary>
internal static class Story
{
    public static readonly DateTimeOffset Noon = new(2031, 7, 4, 12, 0, 0, TimeSpan.FromHours(-5));

    public static readonly ImmutableArray<string> Words = ["estate", "VAN", "warm again", "note 3", "é", "drier"];

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    public static Guid Id(int kind, int number) => new(number, (short)kind, 0, new byte[8]);

    public static readonly ImmutableArray<Guid> JobIds = [Id(3, 1), Id(3, 2), Id(3, 3), Id(3, 9)];

    public static readonly ImmutableArray<Guid> CarIds = [Id(1, 1), Id(1, 2), Id(1, 9)];

    public static Car CarNamed(int id, string label) =>
        new(
            Id(1, id),
            FieldBag
                .Empty.With("label", new FieldValue.Text(label))
                .With("refrigerant", new FieldValue.Text("R-134a"))
                .With("label-charge", new FieldValue.Quantity(new(QuantityKind.Mass, 0.68), "680 g"))
        );

    public static Kit KitOf(int id, string owner) =>
        new(
            Id(2, id),
            Noon.AddDays(id - 5),
            FieldBag.Empty.With("owner", new FieldValue.Text(owner)),
            [
                new Container(
                    FieldBag
                        .Empty.With("name", new FieldValue.Text("A"))
                        .With("kind", new FieldValue.Text("can"))
                        .With("refrigerant", new FieldValue.Text("R-134a"))
                        .With("tare", new FieldValue.Quantity(new(QuantityKind.Mass, 0.138), "138 g"))
                ),
            ]
        );

    public static Job JobOf(int id, int car) => new(Id(3, id), Id(1, car), 0, $"blows warm {id}", Noon.AddDays(id), id);

    public static Entry Note(int number) =>
        new(
            Id(4, number),
            EntryKinds.Note,
            Noon.AddMinutes(number),
            Noon.AddMinutes(number),
            "Ada",
            FieldBag.Empty.With("text", new FieldValue.Text($"note {number}: “dry”, he said"))
        );

    public static Entry State(int number, string state) =>
        Note(number) with
        {
            Kind = EntryKinds.JobState,
            Fields = FieldBag
                .Empty.With("state", new FieldValue.Text(state))
                .With("waiting-for", new FieldValue.Text("the drier")),
        };

    public static Entry Weighed(int number) =>
        Note(number) with
        {
            Kind = EntryKinds.ScaleReading,
            Fields = FieldBag
                .Empty.With("container", new FieldValue.Text("A"))
                .With(
                    "gross",
                    new FieldValue.Quantity(new(QuantityKind.Mass, 0.4 + (number * 0.01)), $"{400 + (10 * number)} g")
                ),
        };

    public static Photo Picture(int number, Entry of) =>
        new(
            Id(5, number),
            of.Id,
            Noon.AddHours(number),
            [.. Enumerable.Range(0, 40 + number).Select(i => (byte)(i * number))]
        );

    public static JobRecord FromElsewhere(params Photo[] photos) =>
        new(
            CarNamed(9, "Bo's van"),
            [KitOf(8, "Bo")],
            JobOf(9, 9) with
            {
                Number = 2,
            },
            Journal.Create([Note(90), Note(91), Weighed(92)]).Journal!
        )
        {
            Photos = [.. photos],
        };

    /// <summary>What was done, in this order; each of them leaves one line.</summary>
    public static readonly ImmutableArray<Func<IJobStore, Task>> Acts =
    [
        store => store.SaveCarAsync(CarNamed(1, "blue estate"), Stop),
        store => store.AddKitAsync(KitOf(1, "Ada"), Stop),
        store => store.AddJobAsync(JobOf(1, 1), Stop),
        store => store.AddEntriesAsync(Id(3, 1), [Note(2), Note(1), Weighed(3)], Stop),
        store => store.SaveCarAsync(CarNamed(2, "Été van"), Stop),
        store => store.AddJobAsync(JobOf(2, 2), Stop),
        store => store.AddPhotoAsync(Id(3, 1), Picture(1, Note(1)), Stop),
        store => store.AddEntriesAsync(Id(3, 2), [State(4, "waiting"), Note(5)], Stop),
        store => store.MergeAsync(FromElsewhere(Picture(6, Note(90)), Picture(7, Note(91))), Stop),
        store =>
            store.AddEntriesAsync(
                Id(3, 2),
                [
                    Note(6) with
                    {
                        Kind = EntryKinds.Struck,
                        Fields = FieldBag.Empty,
                        Supersedes = Note(5).Id,
                        Reason = "another car",
                    },
                    Note(2) with
                    {
                        Id = Id(4, 7),
                    },
                ],
                Stop
            ),
        store => store.AddJobAsync(JobOf(3, 1), Stop),
        store => store.SaveCarAsync(CarNamed(1, "green estate"), Stop),
        store => store.AddKitAsync(KitOf(4, "Ada"), Stop),
        store => store.AddEntriesAsync(Id(3, 3), [Weighed(10), Note(11)], Stop),
        store =>
            store.MergeAsync(
                FromElsewhere(Picture(8, Note(91))) with
                {
                    Kits = [KitOf(8, "Bo"), KitOf(7, "Bo")],
                    Journal = Journal.Create([Note(90), Note(93)]).Journal!,
                },
                Stop
            ),
        store => store.AddPhotoAsync(Id(3, 3), Picture(2, Note(11)), Stop),
        store => store.AddEntriesAsync(Id(3, 1), [State(12, "closed")], Stop),
    ];

    public static Task<string> AskAsync(IJobStore store) => Answers.OfAsync(store, Words, JobIds, CarIds);

    /// <summary>All of it, with the length of the file and the answers after each act, from before the first.</summary>
    public static async Task<(byte[] Bytes, ImmutableArray<(long Length, string Answers)> After)> ToldAsync()
    {
        var file = new MemoryFile();
        var log = JobLog.Open(file);
        var after = new List<(long, string)> { (0, await AskAsync(log)) };
        foreach (var act in Acts)
        {
            await act(log);
            after.Add((file.Length, await AskAsync(log)));
        }
        return (file.Bytes, [.. after]);
    }
}
