using System.Collections.Immutable;
using System.Globalization;
using CsCheck;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Json;
using Tightcold.Jobs.Kits;
using Tightcold.Quantities;

namespace Tightcold.Jobs.Tests;

/// <summary>Makers of any entry that the schemas allow, and of journals with corrections in them.</summary>
internal static class SomeEntries
{
    public static readonly DateTimeOffset Noon = new(2031, 7, 4, 12, 0, 0, TimeSpan.FromHours(-5));

    private static readonly Gen<DateTimeOffset> Moment = Gen.Select(
        Gen.Int[0, 600],
        Gen.Int[-12, 12],
        (minutes, hours) => Noon.AddMinutes(minutes).ToOffset(TimeSpan.FromHours(hours))
    );

    private static Gen<FieldValue> Value(FieldType type) =>
        type switch
        {
            FieldType.Quantity quantity => Gen.Select(
                Gen.Double[quantity.MinSi, quantity.MaxSi],
                Gen.Double[0, 5],
                Gen.Bool,
                (si, spread, given) =>
                    (FieldValue)
                        new FieldValue.Quantity(
                            new Measure(quantity.Kind, si),
                            si.ToString("R", CultureInfo.InvariantCulture) + " " + SiUnit.Of(quantity.Kind),
                            given ? spread : null
                        )
            ),
            FieldType.Number number => Gen.Double[number.Min, number.Max]
                .Select(value => (FieldValue)new FieldValue.Number(value)),
            FieldType.Choice choice => Gen.Int[0, choice.Words.Length - 1]
                .Select(index => choice.Words[index])
                .Select(word => (FieldValue)new FieldValue.Text(word)),
            FieldType.Text text => Gen.String[Gen.Char[' ', '\u04ff'], 1, Math.Min(text.MaxLength, 30)]
                .Select(words => (FieldValue)new FieldValue.Text(words)),
            _ => Gen.String[Gen.Char['a', 'z'], 1, 20].Select(words => (FieldValue)new FieldValue.Text(words)),
        };

    public static Gen<FieldBag> Bag(Schema schema)
    {
        var bag = Gen.Const(FieldBag.Empty);
        foreach (var field in schema.Fields)
            bag = Gen.Select(bag, Value(field.Type), Gen.Bool, (filled, value, given) =>
                given || field.Required ? filled.With(field.Name, value) : filled
            );
        return bag;
    }

    public static readonly Gen<Entry> Any =
        from schema in Gen.Int[0, EntryKinds.All.Length - 1].Select(index => EntryKinds.All[index])
        from bag in Bag(schema)
        from id in Gen.Guid
        from observed in Moment
        from written in Moment
        from who in Gen.String[Gen.Char[' ', '~'], 0, 12]
        select new Entry(id, schema.Name, observed, written, who, bag);

    /// <summary>Entries of which some correct or strike an earlier one of the list, never in a circle.</summary>
    public static readonly Gen<Entry[]> Corrected =
        from entries in Any.Array[1, 14]
        from targets in Gen.Int[-8, 13].Array[14]
        select entries
            .DistinctBy(entry => entry.Id)
            .Select(
                (entry, index) =>
                    targets[index] >= 0 && targets[index] < index
                        ? entry with
                        {
                            Supersedes = entries[targets[index]].Id,
                            Reason = "misread",
                        }
                        : entry
            )
            .ToArray();

    public static Journal JournalOf(IEnumerable<Entry> entries)
    {
        var (journal, problems) = Journal.Create(entries);
        Assert.Empty(problems);
        return journal!;
    }

    public static JobRecord Record(Journal journal, FieldBag? car = null, ImmutableArray<Kit> kits = default) =>
        new(
            new Car(
                new Guid("11111111-2222-3333-4444-555555555555"),
                car
                    ?? FieldBag
                        .Empty.With("label", new FieldValue.Text("blue estate"))
                        .With("refrigerant", new FieldValue.Text("R-134a"))
            ),
            kits.IsDefault ? [] : kits,
            new Job(
                new Guid("11111111-2222-3333-4444-666666666666"),
                new Guid("11111111-2222-3333-4444-555555555555"),
                3,
                "blows warm",
                Noon,
                7
            ),
            journal
        );
}
