using System.Collections.Immutable;
using System.Text.Json;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;

namespace Tightcold.Web.Forms;

/// <summary>What usually goes together, as one tap: it stands in the fields afterwards, to be seen and changed. It says
/// how something is or was set up; never what was read.</summary>
/// <param name="Words">What is taken, in the words of the button.</param>
/// <param name="Sets">Fields and what goes into them, with its unit.</param>
public sealed record Preset(string Words, ImmutableArray<(string Field, string Text)> Sets)
{
    /// <summary>The heading that stands over it; null: above the form.</summary>
    public string? Heading { get; init; }

    /// <summary>For the script: each field with its number and its unit.</summary>
    public string Data(Schema schema) =>
        JsonSerializer.Serialize(
            Sets.Where(set => schema.Find(set.Field) is not null)
                .ToDictionary(
                    set => set.Field,
                    set =>
                        Typed.Split(schema.Find(set.Field)!, set.Text) is var (number, unit)
                            ? new[] { number, unit }
                            : []
                )
        );

    /// <summary>Figures of instruments are what their class allows, or common practice; each is an assumption until
    /// somebody writes down a better one.</summary>
    public static ImmutableArray<Preset> Of(string schema) =>
        schema switch
        {
            "kit" => Instruments,
            "container" => Containers,
            EntryKinds.RunningReading => Running,
            EntryKinds.VentReading => Vent,
            _ => [],
        };

    private static readonly ImmutableArray<Preset> Instruments =
    [
        // Class 1.6: 1.6 % of the end of the scale.
        new(
            "Gauges of class 1.6, to 10 and 30\u00a0bar",
            [
                ("low-gauge-plus-minus", "0.16 bar"),
                ("low-gauge-step", "0.1 bar"),
                ("high-gauge-plus-minus", "0.48 bar"),
                ("high-gauge-step", "0.5 bar"),
            ]
        ),
        new(
            "Gauges of class 1.6, to 250 and 500\u00a0psi",
            [
                ("low-gauge-plus-minus", "4 psi"),
                ("low-gauge-step", "2 psi"),
                ("high-gauge-plus-minus", "8 psi"),
                ("high-gauge-step", "10 psi"),
            ]
        ),
        new(
            "Thermometer ±\u00a01\u00a0K, hygrometer ±\u00a05\u00a0%",
            [("thermometer-plus-minus", "1 K"), ("hygrometer-plus-minus", "5 %")]
        ),
        new("Digital scale of 1\u00a0g, ±\u00a03\u00a0g", [("scale-step", "1 g"), ("scale-plus-minus", "3 g")]),
        new("Digital scale of 5\u00a0g, ±\u00a010\u00a0g", [("scale-step", "5 g"), ("scale-plus-minus", "10 g")]),
        new(
            "Electronic vacuum gauge of 0.01 mbar",
            [("vacuum-gauge", "absolute"), ("vacuum-gauge-plus-minus", "0.05 mbar"), ("vacuum-gauge-step", "0.01 mbar")]
        ),
        new("Vacuum read on the low-side dial", [("vacuum-gauge", "dial")]),
        new("Pump of 72 L/min (2.5 cfm)", [("pump-free-air", "72 L/min")]),
        new("Pump of 42 L/min (1.5 cfm)", [("pump-free-air", "42 L/min")]),
        new("Lamp, detector, soap, nitrogen", [("leak-tests", "UV lamp, electronic detector, soap bubbles, nitrogen")]),
        new("Detector and soap", [("leak-tests", "electronic detector, soap bubbles")]),
    ];

    private static readonly ImmutableArray<Preset> Containers =
    [
        Sold("Can, R-134a, 300\u00a0g", Jobs.Kits.Container.Can, "R-134a", "300 g"),
        Sold("Can, R-134a, 500\u00a0g", Jobs.Kits.Container.Can, "R-134a", "500 g"),
        Sold("Can, R-134a, 340\u00a0g (12\u00a0oz)", Jobs.Kits.Container.Can, "R-134a", "340 g"),
        Sold("Can, R-1234yf, 227\u00a0g (8\u00a0oz)", Jobs.Kits.Container.Can, "R-1234yf", "227 g"),
        Sold("Recovery cylinder, R-134a", Jobs.Kits.Container.RecoveryCylinder, "R-134a", null),
        Sold("Recovery cylinder, R-1234yf", Jobs.Kits.Container.RecoveryCylinder, "R-1234yf", null),
    ];

    private static readonly ImmutableArray<Preset> Running =
    [
        new(
            "1500 rpm, blower full, fresh air, doors open",
            [("engine-speed", "1500 rpm"), ("blower", "full"), ("air-source", "fresh"), ("doors", "open")]
        )
        {
            Heading = FormLayout.HowItRan,
        },
        new(
            "1500 rpm, blower full, recirculated, doors closed",
            [("engine-speed", "1500 rpm"), ("blower", "full"), ("air-source", "recirculated"), ("doors", "closed")]
        )
        {
            Heading = FormLayout.HowItRan,
        },
    ];

    private static readonly ImmutableArray<Preset> Vent =
    [
        Ran("parked in the sun"),
        Ran("parked in shade"),
        Ran("driving"),
    ];

    private static Preset Sold(string words, string kind, string refrigerant, string? net) =>
        new(
            words,
            [("kind", kind), ("refrigerant", refrigerant), .. net is null ? [] : new[] { ("net-as-sold", net) }]
        );

    private static Preset Ran(string moving) =>
        new(moving, [("moving", moving), ("air-source", "recirculated"), ("blower", "full")]);
}
