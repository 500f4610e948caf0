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

    private const string Rest = "More, if you have it";

    public static ImmutableArray<Group> Of(Schema schema)
    {
        var plan = Plan(schema.Name);
        if (plan.Length == 0)
            return [new(null, schema.Fields)];
        var groups = plan.Select(part => new Group(
                part.Heading,
                [.. part.Fields.Select(schema.Find).OfType<FieldSpec>()]
            ))
            .ToList();
        var left = schema.Fields.Except(groups.SelectMany(group => group.Fields)).ToImmutableArray();
        // What must be filled is never folded away.
        var needed = left.Where(field => field.Required).ToImmutableArray();
        groups[0] = groups[0] with { Fields = groups[0].Fields.AddRange(needed) };
        if (left.Length > needed.Length)
            groups.Add(new(Rest, [.. left.Except(needed)]));
        return [.. groups];
    }

    private static (string? Heading, string[] Fields)[] Plan(string schema) =>
        schema switch
        {
            EntryKinds.Weather => [(null, ["ambient-temperature", "relative-humidity", "altitude"])],
            EntryKinds.StandingReading => [(null, ["low-side", "high-side", "ambient-temperature"])],
            EntryKinds.RunningReading =>
            [
                (
                    null,
                    [
                        "low-side",
                        "high-side",
                        "ambient-temperature",
                        "vent-temperature",
                        "suction-line-temperature",
                        "liquid-line-temperature",
                    ]
                ),
                (
                    "How it ran",
                    [
                        "engine-speed",
                        "blower",
                        "air-source",
                        "cabin-temperature",
                        "cabin-humidity",
                        "doors",
                        "aid",
                        "relative-humidity",
                        "since-start",
                        "switch-bridged",
                    ]
                ),
                ("Looked at", ["sight-glass", "frost", "clutch", "cycles-per-minute", "sound"]),
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
            EntryKinds.Recovery => [(null, ["container", "gross-before", "gross-after"])],
            EntryKinds.VacuumReading => [(null, ["absolute-pressure", "dial", "pump-valve", "ambient-temperature"])],
            EntryKinds.ContainerMoved => [(null, ["container", "action", "side"])],
            EntryKinds.ScaleReading => [(null, ["container", "gross"])],
            EntryKinds.VentReading =>
            [
                (null, ["vent-temperature", "ambient-temperature", "relative-humidity", "air-source"]),
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
            "container" => [(null, ["name", "kind", "refrigerant", "net-as-sold", "gross-now", "tare"])],
            _ => [],
        };
}
