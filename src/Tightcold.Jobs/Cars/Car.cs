using Tightcold.Jobs.Fields;
using Tightcold.Quantities;

namespace Tightcold.Jobs.Cars;

/// <summary>A car as its owner knows it: the label under the bonnet, and what somebody measured or assumed.</summary>
public sealed record Car(Guid Id, FieldBag Fields)
{
    public const string Cycling = "fixed, cycling";
    public const string Fixed = "fixed";
    public const string Variable = "variable";
    public const string Electric = "electric";
    public const string ExpansionValve = "expansion valve";
    public const string OrificeTube = "orifice tube";

    public static readonly Schema Schema = new(
        "car",
        "Car",
        Field.Text("label", "Name of the car", 60, required: true, hint: "your own words: colour, owner, plate"),
        Field.Number("model-year", "Model year", 1950, 2100),
        Field.Choice("refrigerant", "Refrigerant on the label", true, "R-134a", "R-1234yf"),
        Field.Mass("label-charge", "Label charge", 0.05, 5, hint: "the plate under the bonnet"),
        Field.Mass("label-tolerance", "Label tolerance ±", 0.001, 0.2),
        Field.Choice("label-charge-source", "Charge figure from", false, "label", "maker's book", "assumed"),
        Field.Choice("compressor", "Compressor", false, Cycling, Fixed, Variable, Electric),
        Field.Choice("device", "Expansion device", false, ExpansionValve, OrificeTube),
        Field.Number("evaporators", "Evaporators", 1, 3),
        Field.Text(
            "oil-type",
            "Oil type",
            40,
            hint: "e.g. PAG 46; electric compressors need their own non-conductive oil"
        ),
        Field.Of("oil-amount", "Oil in the system", QuantityKind.LiquidVolume, 10e-6, 1e-3),
        Field.Of("internal-volume", "Internal volume", QuantityKind.InternalVolume, 0.5e-3, 20e-3),
        Field.Choice("internal-volume-source", "Volume figure from", false, "measured", "maker's book", "assumed"),
        Field.Choice("dye", "Dye ever put in", false, "yes", "no", "unknown"),
        Field.Text("extra-spots", "Extra spots on the circuit", 400, hint: "comma between names"),
        Field.Text("struck-spots", "Spots this car does not have", 400, hint: "comma between names")
    );

    public string Label => Fields.Text("label") ?? "";
    public string Refrigerant => Fields.Text("refrigerant") ?? "";
    public RefrigerantMass? LabelCharge => Fields.Get<RefrigerantMass>("label-charge");
    public RefrigerantMass? LabelTolerance => Fields.Get<RefrigerantMass>("label-tolerance");
    public string? Compressor => Fields.Text("compressor");
    public string? Device => Fields.Text("device");
    public int Evaporators => (int)(Fields.Number("evaporators") ?? 1);
    public OilVolume? OilAmount => Fields.Get<OilVolume>("oil-amount");
    public InternalVolume? InternalVolume => Fields.Get<InternalVolume>("internal-volume");
    public bool VolumeMeasured => Fields.Text("internal-volume-source") is "measured" or "maker's book";
    public bool? Dyed =>
        Fields.Text("dye") switch
        {
            "yes" => true,
            "no" => false,
            _ => null,
        };
}
