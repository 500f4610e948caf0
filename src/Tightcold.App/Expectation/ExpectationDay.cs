using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Fields;
using Tightcold.Loop;
using Tightcold.Properties;
using Tightcold.Quantities;

namespace Tightcold.App.Expectation;

/// <summary>The day, the way the car is run and what is in it, as a form: the question behind "what should I
/// see?".</summary>
public sealed class ExpectationDay(FieldBag fields)
{
    private const double Idle = 850;

    public static readonly Schema Schema = new(
        "loop",
        "What should I see?",
        Field.Of(
            "ambient",
            "Air around the car",
            QuantityKind.Temperature,
            LoopLimits.MinAmbientK,
            LoopLimits.MaxAmbientK,
            required: true
        ),
        Field.Humidity("humidity", "Relative humidity"),
        Field.Of("altitude", "Altitude", QuantityKind.Altitude, -400, 4000),
        Field.Of(
            "barometer",
            "Air pressure at the place",
            QuantityKind.AbsolutePressure,
            LoopLimits.MinBarometricPa,
            LoopLimits.MaxBarometricPa
        ),
        Field.Of(
            FieldNames.EngineSpeed,
            "Engine speed",
            QuantityKind.RotationalSpeed,
            LoopLimits.MinEngineRpm / 60,
            LoopLimits.MaxEngineRpm / 60
        ),
        Field.Choice("air", "Cabin air", false, "doors open", "recirculation"),
        Field.Of("cabin", "Air in the cabin", QuantityKind.Temperature, LoopLimits.MinCabinK, LoopLimits.MaxCabinK),
        Field.Of("charge", "Refrigerant in the car", QuantityKind.Mass, 0.02, 5),
        // For a car that is not in the book:
        Field.Choice("refrigerant", "Refrigerant", false, "R-134a", "R-1234yf", "R-152a"),
        Field.Choice("compressor", "Compressor", false, Car.Cycling, Car.Fixed, Car.Variable, Car.Electric),
        Field.Choice("device", "Expansion device", false, Car.ExpansionValve, Car.OrificeTube),
        Field.Of(FieldNames.LabelCharge, "Label charge", QuantityKind.Mass, 0.1, 3),
        Field.Of("displacement", "Compressor displacement", QuantityKind.LiquidVolume, 15e-6, 300e-6),
        Field.Choice("size", "Size of the car", false, "small", "medium", "large", "two evaporators")
    );

    public FieldBag Fields { get; } = fields;

    /// <summary>Refrigerant in the circuit if the person says so; else the label's.</summary>
    public double? ChargeKg => Fields.Get<RefrigerantMass>("charge")?.Kilograms;

    public double BarometricPa =>
        Fields.Get<AbsolutePressure>("barometer")?.Pascals
        ?? StandardAtmosphere.PressurePa(Fields.Get<Altitude>(FieldNames.Altitude)?.Metres ?? 0);

    public LoopConditions Conditions
    {
        get
        {
            var ambient = Fields.Get<Temperature>("ambient")!.Value.Kelvins;
            var humidity = Fields.Get<RelativeHumidity>("humidity")?.Ratio ?? 0.5;
            var rpm = (Fields.Si(FieldNames.EngineSpeed) ?? 1500.0 / 60) * 60;
            var day = LoopConditions.DoorsOpen(ambient, humidity, rpm) with
            {
                BarometricPa = BarometricPa,
                // Practice: at idle more hot air comes back from under the bonnet and the fan moves less.
                ReentryK = rpm < Idle + 100 ? 8 : 7,
                CondenserFaceMPerS = rpm < Idle + 100 ? 1.6 : 2.0,
            };
            return Fields.Text("air") == "recirculation"
                ? day.Recirculating(Fields.Get<Temperature>("cabin")?.Kelvins ?? ambient - 5, 0.55)
                : day with
                {
                    CabinK = Fields.Get<Temperature>("cabin")?.Kelvins ?? ambient,
                };
        }
    }

    /// <summary>What was taken for granted, in sentences.</summary>
    public IEnumerable<Phrase> Assumptions()
    {
        if (Fields.Get<RelativeHumidity>("humidity") is null)
            yield return Phrase.Words("Relative humidity taken as 50 %.");
        if (Fields.Get<AbsolutePressure>("barometer") is null && Fields.Get<Altitude>(FieldNames.Altitude) is null)
            yield return Phrase.Words("Air pressure taken as at sea level.");
        if (Fields.Si(FieldNames.EngineSpeed) is null)
            yield return Phrase.Words("Engine at 1500 rpm, blower at full, condenser fan running.");
    }
}
