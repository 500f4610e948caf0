using System.Collections.Immutable;
using Tightcold.Jobs.Fields;
using Tightcold.Quantities;

namespace Tightcold.Jobs.Kits;

/// <summary>A can, a cylinder, or a recovery cylinder on the shelf.</summary>
public sealed record Container(FieldBag Fields)
{
    public const string Can = "can";
    public const string Cylinder = "cylinder";
    public const string RecoveryCylinder = "recovery cylinder";

    public static readonly Schema Schema = new(
        "container",
        "Can or cylinder",
        [
            .. Field.Open(
                Field.Text(FieldNames.Name, "Name", 40, required: true, hint: "write it on the can: A, B, C"),
                Field.Mass(FieldNames.Tare, "Tare (empty mass)", 0.01, 60),
                Field.Mass(FieldNames.GrossNow, "Gross mass now", 0.01, 120, hint: "on the scale, before the job"),
                Field.Choice(FieldNames.Kind, "Kind", true, Can, Cylinder, RecoveryCylinder),
                Field.Choice(FieldNames.Refrigerant, "Refrigerant", true, "R-134a", "R-1234yf", Chosen.MixedOrUnknown),
                Field.Mass(
                    FieldNames.NetAsSold,
                    "Net mass as sold",
                    0.01,
                    70,
                    hint: "0 for an empty recovery cylinder: leave it out"
                ),
                Field.Mass(
                    FieldNames.WaterCapacity,
                    "Water capacity (WC)",
                    0.1,
                    100,
                    hint: "stamped on a recovery cylinder"
                )
            ),
            Field.Choice(FieldNames.SelfSealing, "Self-sealing valve", false, Chosen.Yes, "no"),
            Field.Of(FieldNames.InnerVolume, "Inner volume", QuantityKind.InternalVolume, 50e-6, 0.1),
        ]
    );

    /// <summary>What is usually bought.</summary>
    public static ImmutableArray<Preset> Presets { get; } =
    [
        Sold("Can, R-134a, 300\u00a0g", Can, "R-134a", "300 g"),
        Sold("Can, R-134a, 500\u00a0g", Can, "R-134a", "500 g"),
        Sold("Can, R-134a, 340\u00a0g (12\u00a0oz)", Can, "R-134a", "340 g"),
        Sold("Can, R-1234yf, 227\u00a0g (8\u00a0oz)", Can, "R-1234yf", "227 g"),
        Sold("Recovery cylinder, R-134a", RecoveryCylinder, "R-134a", null),
        Sold("Recovery cylinder, R-1234yf", RecoveryCylinder, "R-1234yf", null),
    ];

    private static Preset Sold([Said] string words, string kind, string refrigerant, string? net) =>
        new(
            words,
            [
                (FieldNames.Kind, kind),
                (FieldNames.Refrigerant, refrigerant),
                .. net is null ? [] : new[] { (FieldNames.NetAsSold, net) },
            ]
        );

    public string Name => Fields.Text(FieldNames.Name) ?? "";
    public string Kind => Fields.Text(FieldNames.Kind) ?? "";
    public string Refrigerant => Fields.Text(FieldNames.Refrigerant) ?? "";

    /// <summary>The refrigerant, or that it is mixed or unknown, as a person reads it.</summary>
    public Phrase RefrigerantSays => Phrase.Words(Refrigerant, FieldNames.Refrigerant);

    public RefrigerantMass? NetAsSold => Fields.Get<RefrigerantMass>(FieldNames.NetAsSold);
    public RefrigerantMass? Tare => Fields.Get<RefrigerantMass>(FieldNames.Tare);
    public RefrigerantMass? GrossNow => Fields.Get<RefrigerantMass>(FieldNames.GrossNow);
    public RefrigerantMass? WaterCapacity => Fields.Get<RefrigerantMass>(FieldNames.WaterCapacity);
    public InternalVolume? InnerVolume => Fields.Get<InternalVolume>(FieldNames.InnerVolume);
    public bool IsRecovery => Kind == RecoveryCylinder;

    /// <summary>Schema problems, and masses that contradict each other.</summary>
    public IReadOnlyList<InputProblem> Check()
    {
        var problems = new List<InputProblem>(Schema.Check(Fields));
        if (Tare is { } tare && GrossNow is { } gross && gross < tare)
            problems.Add(
                new(
                    $"{Name}: gross-now",
                    Typed(FieldNames.GrossNow),
                    Phrase.Of($"nothing can weigh less than its own tare, {tare}")
                )
            );
        if (IsRecovery && WaterCapacity is null)
            problems.Add(
                new(
                    $"{Name}: water-capacity",
                    "",
                    Phrase.Words(
                        "without the stamped water capacity the fill limit of a recovery cylinder cannot be computed"
                    )
                )
            );
        return problems;
    }

    private string Typed(string field) => Fields[field] is FieldValue.Quantity quantity ? quantity.AsTyped : "";
}
