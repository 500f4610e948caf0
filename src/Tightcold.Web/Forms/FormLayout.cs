using System.Collections.Immutable;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Kits;

namespace Tightcold.Web.Forms;

/// <summary>Which fields of a form stand in the open, and which are folded away under a heading until somebody
/// has measured them. A field that is not named here goes into the last fold.</summary>
public static class FormLayout
{
    public sealed record Group(string? Heading, ImmutableArray<FieldSpec> Fields);

    /// <summary>Decides what a reading means: open until it was said once, then taken from the last reading and shown
    /// folded.</summary>
    public const string HowItRan = "How it ran";

    private const string Rest = "More, if you have it";

    /// <param name="schema">Of the form.</param>
    /// <param name="kit">What the person reads with; null where that does not matter.</param>
    public static ImmutableArray<Group> Of(Schema schema, Kit? kit = null)
    {
        ArgumentNullException.ThrowIfNull(schema);
        var plan = Plan(schema.Name, kit);
        if (plan.Length == 0)
            return [new(null, schema.Asked)];
        var groups = plan.Select(part => new Group(
                part.Heading,
                [.. part.Fields.Select(schema.Find).OfType<FieldSpec>()]
            ))
            .ToList();
        var left = schema.Asked.Except(groups.SelectMany(group => group.Fields)).ToImmutableArray();
        // What must be filled is never folded away.
        var needed = left.Where(field => field.Required).ToImmutableArray();
        groups[0] = groups[0] with { Fields = groups[0].Fields.AddRange(needed) };
        if (left.Length > needed.Length)
            groups.Add(new(Rest, [.. left.Except(needed)]));
        return [.. groups];
    }

    /// <summary>The field that this kit's vacuum gauge is read into; both where the kit does not say.</summary>
    private static string[] VacuumGauge(Kit? kit) =>
        kit?.Fields.Text("vacuum-gauge") switch
        {
            "dial" => ["dial"],
            "absolute" => ["absolute-pressure"],
            _ => ["absolute-pressure", "dial"],
        };

    private static (string? Heading, string[] Fields)[] Plan(string schema, Kit? kit) =>
        schema switch
        {
            // The height of the place is asked for where the kit does not know it.
            EntryKinds.Weather =>
            [
                (
                    null,
                    kit?.Has("altitude") == true
                        ? ["ambient-temperature", "relative-humidity"]
                        : ["ambient-temperature", "relative-humidity", "altitude"]
                ),
            ],
            EntryKinds.StandingReading => [(null, ["low-side", "high-side", "ambient-temperature"])],
            EntryKinds.RunningReading =>
            [
                (
                    null,
                    ["low-side", "high-side", "vent-temperature", "suction-line-temperature", "liquid-line-temperature"]
                ),
                (HowItRan, ["engine-speed", "blower", "air-source", "doors", "clutch"]),
                (
                    "The air, and how long",
                    [
                        "ambient-temperature",
                        "relative-humidity",
                        "cabin-temperature",
                        "cabin-humidity",
                        "since-start",
                        "aid",
                        "switch-bridged",
                    ]
                ),
                ("Looked at", ["sight-glass", "frost", "cycles-per-minute"]),
                (
                    "Swings, and other lines",
                    [
                        "low-side-swing-to",
                        "high-side-swing-to",
                        "discharge-line-temperature",
                        "line-part",
                        "line-before-temperature",
                        "line-behind-temperature",
                    ]
                ),
            ],
            EntryKinds.LeakCheck => [(null, ["spot", "test", "outcome"])],
            EntryKinds.LeakSearch => [(null, ["test", "showed", "not-reached"])],
            EntryKinds.Recovery => [(null, ["container", "gross-before", "gross-after", "final-pressure"])],
            EntryKinds.VacuumReading => [(null, [.. VacuumGauge(kit), "pump-valve", "part-temperature"])],
            EntryKinds.ContainerMoved => [(null, ["container", "action", "side"])],
            EntryKinds.ScaleReading => [(null, ["container", "gross"])],
            EntryKinds.VentReading =>
            [
                (
                    null,
                    [
                        "vent-temperature",
                        "cabin-temperature",
                        "ambient-temperature",
                        "relative-humidity",
                        "air-source",
                        "moving",
                    ]
                ),
            ],
            EntryKinds.PartChanged or EntryKinds.SealChanged => [(null, ["spot", "part", "seal"])],
            "car" when schema == Car.Schema.Name =>
            [
                (null, ["label", "refrigerant", "label-charge", "compressor", "device"]),
            ],
            "kit" when schema == Kit.Schema.Name =>
            [
                (null, ["owner", "place", "altitude", "jurisdiction", "works", "qualification"]),
                (
                    "Gauges",
                    [
                        "low-gauge-plus-minus",
                        "low-gauge-step",
                        "low-gauge-zero",
                        "high-gauge-plus-minus",
                        "high-gauge-step",
                        "high-gauge-zero",
                    ]
                ),
                ("Thermometer and hygrometer", ["thermometer-plus-minus", "hygrometer-plus-minus"]),
                ("Scale", ["scale-step", "scale-plus-minus"]),
                (
                    "Vacuum gauge and pump",
                    ["vacuum-gauge", "vacuum-gauge-plus-minus", "vacuum-gauge-step", "pump-free-air", "pump-ultimate"]
                ),
                ("Hoses", ["hose-bore", "hose-length"]),
                ("Leak tests and what tight means", ["leak-tests", "cools-for"]),
                (
                    "Prices, for the ways forward",
                    [
                        "currency",
                        "price-refrigerant",
                        "price-part",
                        "price-opening",
                        "price-hour",
                        "price-workshop",
                        "price-years",
                    ]
                ),
            ],
            "container" =>
            [
                (null, ["name", "tare", "gross-now", "kind", "refrigerant", "net-as-sold", "water-capacity"]),
            ],
            _ => [],
        };
}
