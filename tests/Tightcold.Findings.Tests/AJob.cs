using System.Globalization;
using Tightcold.App.Units;
using Tightcold.Diagnosis.Inference;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Kits;

namespace Tightcold.Findings.Tests;

/// <summary>A job in the words of the trade: <c>AJob.OnACar(("label-charge", "500 g")).With(0, "weather",
/// …)</c>.</summary>
internal sealed class AJob
{
    public static readonly DateTimeOffset Morning = new(2026, 7, 1, 8, 0, 0, TimeSpan.Zero);

    private readonly List<Entry> entries = [];
    private readonly List<Container> containers = [];
    private FieldBag car = FieldBag.Empty;
    private FieldBag kit = FieldBag.Empty;

    public static AJob OnACar(params (string, string)[] fields) =>
        new()
        {
            car = Bag(Car.Schema, [("label", "test car"), ("refrigerant", "R-134a"), .. fields]),
            kit = Bag(Kit.Schema, [("altitude", "0 m")]),
        };

    public AJob Kit_(params (string, string)[] fields)
    {
        foreach (var (name, value) in Bag(Kit.Schema, fields))
            kit = kit.With(name, value);
        return this;
    }

    public AJob Holding(params (string, string)[] fields)
    {
        containers.Add(new(Bag(Container.Schema, fields)));
        return this;
    }

    public AJob At(double minute, string kind, params (string, string)[] fields)
    {
        entries.Add(
            new(
                Id(entries.Count + 1),
                kind,
                Morning.AddMinutes(minute),
                Morning.AddMinutes(minute),
                "tester",
                Bag(EntryKinds.Get(kind), fields)
            )
        );
        return this;
    }

    public AJob Add(Entry entry)
    {
        entries.Add(entry);
        return this;
    }

    public IReadOnlyList<Entry> Entries => entries;

    public JobRecord Record(IEnumerable<Entry>? instead = null) =>
        new(
            new Car(Id(9001), car),
            [new Kit(Id(9002), Morning.AddDays(-1), kit, [.. containers])],
            new Job(Id(9003), Id(9001), 1, "blows warm", Morning, 7),
            Journal.Create(instead ?? entries).Journal!
        );

    public JobPicture Picture(Effort? effort = null) => new(Record(), effort: effort);

    public Finding Find(Step step) => Walk.Of(step, Picture());

    public static Guid Id(int number) => new(number, 0, 0, 0, 0, 0, 0, 0, 0, 0, 1);

    public static FieldBag Bag(Schema schema, params (string Name, string Text)[] fields)
    {
        var bag = FieldBag.Empty;
        foreach (var (name, text) in fields)
        {
            bag = bag.With(
                name,
                schema.Find(name)!.Type switch
                {
                    FieldType.Quantity type => UnitParser.Parse(type, text, CultureInfo.InvariantCulture).Item1
                        ?? throw new ArgumentException($"{name}: {text}"),
                    FieldType.Number => new FieldValue.Number(double.Parse(text, CultureInfo.InvariantCulture)),
                    _ => new FieldValue.Text(text),
                }
            );
        }
        Assert.DoesNotContain(schema.Check(bag), problem => problem.Value.Length > 0);
        return bag;
    }
}
