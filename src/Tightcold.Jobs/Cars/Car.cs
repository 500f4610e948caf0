using System.Globalization;
using Tightcold.Jobs.Fields;
using Tightcold.Quantities;

namespace Tightcold.Jobs.Cars;

/// <summary>A car as its owner knows it: the label under the bonnet, and what somebody measured or assumed.</summary>
public sealed record Car(Guid Id, FieldBag Fields)
{
    private const string Stamp = "yyyy-MM-dd'T'HH:mm:ss.FFFFFFFK";

    /// <summary>A moment so late is a mistake, and there would be none behind it.</summary>
    private const int LastYear = 9999;

    public const string Cycling = "fixed, cycling";
    public const string Fixed = "fixed";
    public const string Variable = "variable";
    public const string Electric = "electric";
    public const string ExpansionValve = "expansion valve";
    public const string OrificeTube = "orifice tube";

    public static readonly Schema Schema = new(
        "car",
        "Car",
        [
            .. Field.Open(
                Field.Text(
                    FieldNames.Label,
                    "Name of the car",
                    60,
                    required: true,
                    hint: "your own words: colour, owner, plate"
                ),
                Field.Choice(FieldNames.Refrigerant, "Refrigerant on the label", true, "R-134a", "R-1234yf"),
                Field.Mass(FieldNames.LabelCharge, "Label charge", 0.05, 5, hint: "the plate under the bonnet"),
                Field.Choice(FieldNames.Compressor, "Compressor", false, Cycling, Fixed, Variable, Electric),
                Field.Choice(FieldNames.Device, "Expansion device", false, ExpansionValve, OrificeTube)
            ),
            Field.Number(FieldNames.ModelYear, "Model year", 1950, 2100),
            Field.Mass(FieldNames.LabelTolerance, "Label tolerance ±", 0.001, 0.2),
            Field.Choice(
                FieldNames.LabelChargeSource,
                "Charge figure from",
                false,
                "label",
                Chosen.MakersBook,
                "assumed"
            ),
            Field.Number(FieldNames.Evaporators, "Evaporators", 1, 3),
            Field.Text(
                FieldNames.OilType,
                "Oil type",
                40,
                hint: "e.g. PAG 46; electric compressors need their own non-conductive oil"
            ),
            Field.Of(FieldNames.OilAmount, "Oil in the system", QuantityKind.LiquidVolume, 10e-6, 1e-3),
            Field.Of(FieldNames.InternalVolume, "Internal volume", QuantityKind.InternalVolume, 0.5e-3, 20e-3),
            Field.Choice(
                FieldNames.InternalVolumeSource,
                "Volume figure from",
                false,
                Chosen.Measured,
                Chosen.MakersBook,
                "assumed"
            ),
            Field.Choice(FieldNames.Dye, "Dye ever put in", false, Chosen.Yes, "no", "unknown"),
            Field.Text(FieldNames.ExtraSpots, "Extra spots on the circuit", 400, hint: "comma between names"),
            Field.Text(FieldNames.StruckSpots, "Spots this car does not have", 400, hint: "comma between names"),
            // Nobody is asked for it: the desk writes it down with every change.
            Field.Unread(Field.Text(FieldNames.WrittenAt, "Written down at", 40)),
        ]
    );

    /// <summary>When this version of the car was written down; null for one from before that was kept, and for what is
    /// no moment.</summary>
    public DateTimeOffset? WrittenAt =>
        Fields.Text(FieldNames.WrittenAt) is { } text
        && DateTimeOffset.TryParseExact(
            text,
            Stamp,
            CultureInfo.InvariantCulture,
            DateTimeStyles.AssumeUniversal | DateTimeStyles.AdjustToUniversal,
            out var moment
        )
        && moment.Year < LastYear
            ? moment
            : null;

    /// <summary>This version, written down now: behind the one that it was made from, whatever the clock
    /// says.</summary>
    public Car WrittenDown(DateTimeOffset now, Car? from)
    {
        var moment = now.ToUniversalTime();
        if (from?.WrittenAt is { } before && before >= moment)
            moment = before.AddTicks(1);
        return this with
        {
            Fields = Fields.With(
                FieldNames.WrittenAt,
                new FieldValue.Text(moment.ToString(Stamp, CultureInfo.InvariantCulture))
            ),
        };
    }

    public string Label => Fields.Text(FieldNames.Label) ?? "";
    public string Refrigerant => Fields.Text(FieldNames.Refrigerant) ?? "";
    public RefrigerantMass? LabelCharge => Fields.Get<RefrigerantMass>(FieldNames.LabelCharge);
    public RefrigerantMass? LabelTolerance => Fields.Get<RefrigerantMass>(FieldNames.LabelTolerance);
    public string? Compressor => Fields.Text(FieldNames.Compressor);
    public string? Device => Fields.Text(FieldNames.Device);
    public int Evaporators => (int)(Fields.Number(FieldNames.Evaporators) ?? 1);
    public OilVolume? OilAmount => Fields.Get<OilVolume>(FieldNames.OilAmount);
    public InternalVolume? InternalVolume => Fields.Get<InternalVolume>(FieldNames.InternalVolume);
    public bool VolumeMeasured => Fields.Text(FieldNames.InternalVolumeSource) is Chosen.Measured or Chosen.MakersBook;
    public bool? Dyed =>
        Fields.Text(FieldNames.Dye) switch
        {
            "yes" => true,
            "no" => false,
            _ => null,
        };
}
