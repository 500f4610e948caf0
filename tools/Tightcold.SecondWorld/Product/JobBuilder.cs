using System.Globalization;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Kits;
using Tightcold.Quantities;

namespace Tightcold.SecondWorld.Product;

/// <summary>
/// A job as a person would write it, in SI. A field or a word that the product does not know is left out and counted,
/// so that a redesigned journal is asked what it can be asked.
/// </summary>
internal sealed class JobBuilder
{
    private readonly DateTimeOffset morning;
    private readonly List<Entry> entries = [];
    private readonly int seed;
    private readonly int yearsAgo;
    private FieldBag car;
    private FieldBag kit;

    public JobBuilder(int seed, params (string Name, object Value)[] carFields)
        : this(seed, 0, carFields) { }

    /// <param name="seed">The job's.</param>
    /// <param name="yearsAgo">Before the day that is judged; such a job has entries of its own ids.</param>
    /// <param name="carFields">Of the car.</param>
    public JobBuilder(int seed, int yearsAgo, params (string Name, object Value)[] carFields)
    {
        this.seed = seed;
        this.yearsAgo = yearsAgo;
        morning = new(2026 - yearsAgo, 7, 1, 8, 0, 0, TimeSpan.Zero);
        car = Bag(Car.Schema, [("label", "second world"), .. carFields]);
        kit = Bag(Kit.Schema, [("altitude", 0.0)]);
    }

    /// <summary>Fields and words that this product does not take, with how often they were offered.</summary>
    public static SortedDictionary<string, int> NotTaken { get; } = new(StringComparer.Ordinal);

    public JobBuilder Kit_(params (string Name, object Value)[] fields)
    {
        foreach (var (name, value) in Bag(Kit.Schema, fields))
            kit = kit.With(name, value);
        return this;
    }

    public JobBuilder At(double minute, string kind, params (string Name, object Value)[] fields)
    {
        if (EntryKinds.Find(kind) is not { } schema)
        {
            Count(kind);
            return this;
        }
        var at = morning.AddMinutes(minute);
        entries.Add(new(Id(10_000 * yearsAgo + entries.Count + 1), kind, at, at, "second world", Bag(schema, fields)));
        return this;
    }

    public JobRecord Record(string complaint = "check-up") =>
        new(
            new Car(Id(9001), car),
            [new Kit(Id(9002), morning.AddDays(-1), kit, [])],
            new Job(Id(9003 + 10_000 * yearsAgo), Id(9001), 1 + yearsAgo, complaint, morning, seed),
            Journal.Create(entries).Journal!
        );

    private static Guid Id(int number) => new(number, 0, 0, 0, 0, 0, 0, 0, 0, 0, 1);

    private static FieldBag Bag(Schema schema, params (string Name, object Value)[] fields)
    {
        var bag = FieldBag.Empty;
        foreach (var (name, value) in fields)
        {
            if (Of(schema, name, value) is { } field)
                bag = bag.With(name, field);
        }
        // What lies outside the product's own range is left out as a person would leave it out.
        foreach (var problem in schema.Check(bag))
        {
            if (problem.Value.Length == 0)
                continue;
            Count($"{schema.Name}/{problem.Field} out of range");
            bag = bag.Without(problem.Field);
        }
        return bag;
    }

    private static FieldValue? Of(Schema schema, string name, object value)
    {
        switch (schema.Find(name)?.Type)
        {
            case FieldType.Quantity type:
                var si = Convert.ToDouble(value, CultureInfo.InvariantCulture);
                return new FieldValue.Quantity(
                    new Measure(type.Kind, si),
                    si.ToString("R", CultureInfo.InvariantCulture)
                );
            case FieldType.Number:
                return new FieldValue.Number(Convert.ToDouble(value, CultureInfo.InvariantCulture));
            case FieldType.Choice choice when !choice.Words.Contains((string)value):
                Count($"{schema.Name}/{name}={value}");
                return null;
            case null:
                Count($"{schema.Name}/{name}");
                return null;
            default:
                return new FieldValue.Text((string)value);
        }
    }

    private static void Count(string what) => NotTaken[what] = NotTaken.GetValueOrDefault(what) + 1;
}
