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
        Field.Text("name", "Name", 40, required: true, hint: "write it on the can: A, B, C"),
        Field.Choice("kind", "Kind", true, Can, Cylinder, RecoveryCylinder),
        Field.Choice("refrigerant", "Refrigerant", true, "R-134a", "R-1234yf", "mixed or unknown"),
        Field.Mass("net-as-sold", "Net mass as sold", 0.01, 70, hint: "0 for an empty recovery cylinder: leave it out"),
        Field.Mass("tare", "Tare (empty mass)", 0.01, 60),
        Field.Mass("gross-now", "Gross mass now", 0.01, 120, hint: "on the scale, before the job"),
        Field.Choice("self-sealing", "Self-sealing valve", false, "yes", "no"),
        Field.Of("inner-volume", "Inner volume", QuantityKind.InternalVolume, 50e-6, 0.1),
        Field.Mass("water-capacity", "Water capacity (WC)", 0.1, 100, hint: "stamped on a recovery cylinder")
    );

    public string Name => Fields.Text("name") ?? "";
    public string Kind => Fields.Text("kind") ?? "";
    public string Refrigerant => Fields.Text("refrigerant") ?? "";
    public RefrigerantMass? NetAsSold => Fields.Get<RefrigerantMass>("net-as-sold");
    public RefrigerantMass? Tare => Fields.Get<RefrigerantMass>("tare");
    public RefrigerantMass? GrossNow => Fields.Get<RefrigerantMass>("gross-now");
    public RefrigerantMass? WaterCapacity => Fields.Get<RefrigerantMass>("water-capacity");
    public InternalVolume? InnerVolume => Fields.Get<InternalVolume>("inner-volume");
    public bool IsRecovery => Kind == RecoveryCylinder;

    /// <summary>Schema problems, and masses that contradict each other.</summary>
    public IReadOnlyList<InputProblem> Check()
    {
        var problems = new List<InputProblem>(Schema.Check(Fields));
        if (Tare is { } tare && GrossNow is { } gross && gross < tare)
            problems.Add(
                new(
                    $"{Name}: gross-now",
                    Typed("gross-now"),
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
