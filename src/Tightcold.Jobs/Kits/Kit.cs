using System.Collections.Immutable;
using Tightcold.Jobs.Fields;
using Tightcold.Quantities;

namespace Tightcold.Jobs.Kits;

/// <summary>The person's instruments and stock from a moment on. A change makes a new version; a finding uses the
/// version that was true when the reading was taken.</summary>
public sealed record Kit(Guid Id, DateTimeOffset From, FieldBag Fields, ImmutableArray<Container> Containers)
{
    public const string OwnCars = "on your own cars, unpaid",
        ForPay = "for pay or in trade";

    public static readonly Schema Schema = new(
        "kit",
        "Kit",
        [
            .. Field.Open(
                Field.Text(FieldNames.Owner, "Who works", 60),
                Field.Text(FieldNames.Place, "Workshop or town", 60),
                Field.Of(FieldNames.Altitude, "Altitude of the place", QuantityKind.Altitude, -500, 9000),
                Field.Text(
                    FieldNames.Jurisdiction,
                    "Country or region, for the rules",
                    80,
                    hint: "choose from the list; a code of ISO 3166 such as DE or AU-NSW settles it, “not said” "
                        + "leaves it open"
                ),
                Field.Choice(FieldNames.Works, "You work", false, OwnCars, ForPay),
                Field.Text(
                    FieldNames.Qualification,
                    "Your certificate or licence for refrigerant",
                    80,
                    hint: "what your place asks for; empty if you hold none"
                )
            ),
            .. Field.Under(
                "Gauges",
                Field.Of(FieldNames.LowGaugePlusMinus, "Low gauge ±", QuantityKind.PressureDifference, 100, 200e3),
                Field.Of(
                    FieldNames.LowGaugeStep,
                    "Low gauge smallest step",
                    QuantityKind.PressureDifference,
                    10,
                    200e3
                ),
                Field.Of(
                    FieldNames.LowGaugeZero,
                    "Low gauge in open air reads",
                    QuantityKind.GaugePressure,
                    -50e3,
                    50e3
                ),
                Field.Of(FieldNames.HighGaugePlusMinus, "High gauge ±", QuantityKind.PressureDifference, 100, 500e3),
                Field.Of(
                    FieldNames.HighGaugeStep,
                    "High gauge smallest step",
                    QuantityKind.PressureDifference,
                    10,
                    500e3
                ),
                Field.Of(
                    FieldNames.HighGaugeZero,
                    "High gauge in open air reads",
                    QuantityKind.GaugePressure,
                    -100e3,
                    100e3
                )
            ),
            .. Field.Under(
                "Thermometer and hygrometer",
                Field.Of(
                    FieldNames.ThermometerPlusMinus,
                    "Thermometer ±",
                    QuantityKind.TemperatureDifference,
                    0.05,
                    10
                ),
                Field.Of(FieldNames.HygrometerPlusMinus, "Hygrometer ±", QuantityKind.RelativeHumidity, 0.005, 0.3)
            ),
            .. Field.Under(
                "Scale",
                Field.Mass(FieldNames.ScaleStep, "Scale smallest step", 0.0001, 0.2),
                Field.Mass(FieldNames.ScalePlusMinus, "Scale ±", 0.0001, 0.5)
            ),
            .. Field.Under(
                "Vacuum gauge and pump",
                Field.Choice(FieldNames.VacuumGauge, "Vacuum gauge", false, Chosen.Dial, Chosen.Absolute),
                Field.Of(FieldNames.VacuumGaugePlusMinus, "Vacuum gauge ±", QuantityKind.PressureDifference, 0.1, 10e3),
                Field.Of(
                    FieldNames.VacuumGaugeStep,
                    "Vacuum gauge smallest step",
                    QuantityKind.PressureDifference,
                    0.01,
                    10e3
                ),
                Field.Of(FieldNames.PumpFreeAir, "Pump free-air rate", QuantityKind.VolumeFlow, 1e-4, 0.02),
                Field.Of(FieldNames.PumpUltimate, "Pump ultimate vacuum", QuantityKind.Vacuum, 0.1, 10e3)
            ),
            .. Field.Under(
                "Hoses",
                Field.Of(FieldNames.HoseBore, "Service hose bore", QuantityKind.Bore, 1e-3, 0.02),
                Field.Of(FieldNames.HoseLength, "Service hose length", QuantityKind.Length, 0.1, 10)
            ),
            .. Field.Under(
                "Leak tests and what tight means",
                Field.Text(
                    FieldNames.LeakTests,
                    "Leak tests owned",
                    200,
                    hint: "UV lamp, electronic detector, soap bubbles, nitrogen"
                ),
                Field.Number(
                    FieldNames.CoolsFor,
                    "A repair should cool for so many years",
                    0.25,
                    10,
                    hint: "what “proven tight” means with you; 2 unless you say otherwise"
                )
            ),
            .. Field.Under(
                "Prices, for the ways forward",
                Field.Text(FieldNames.Currency, "Currency", 8),
                Field.Number(FieldNames.PriceRefrigerant, "Refrigerant, price of a kilogram", 0, 1e6),
                Field.Number(FieldNames.PricePart, "Seal or part for one spot", 0, 1e6),
                Field.Number(FieldNames.PriceOpening, "Drier, oil, nitrogen: each opening", 0, 1e6),
                Field.Number(
                    FieldNames.PriceHour,
                    "An hour of your work is worth",
                    0,
                    1e6,
                    hint: "0 if you do it for pleasure"
                ),
                Field.Number(FieldNames.PriceWorkshop, "A workshop’s price to find and mend", 0, 1e6),
                Field.Number(FieldNames.PriceYears, "Years to look ahead", 0.5, 20)
            ),
        ]
    );

    /// <summary>Usual instruments. Figures are what their class allows, or common practice; each is an assumption until
    /// somebody writes down a better one.</summary>
    public static ImmutableArray<Preset> Presets { get; } =
    [
        // Class 1.6: 1.6 % of the end of the scale.
        new(
            "Gauges of class 1.6, to 10 and 30\u00a0bar",
            [
                (FieldNames.LowGaugePlusMinus, "0.16 bar"),
                (FieldNames.LowGaugeStep, "0.1 bar"),
                (FieldNames.HighGaugePlusMinus, "0.48 bar"),
                (FieldNames.HighGaugeStep, "0.5 bar"),
            ]
        ),
        new(
            "Gauges of class 1.6, to 250 and 500\u00a0psi",
            [
                (FieldNames.LowGaugePlusMinus, "4 psi"),
                (FieldNames.LowGaugeStep, "2 psi"),
                (FieldNames.HighGaugePlusMinus, "8 psi"),
                (FieldNames.HighGaugeStep, "10 psi"),
            ]
        ),
        new(
            "Thermometer ±\u00a01\u00a0K, hygrometer ±\u00a05\u00a0%",
            [(FieldNames.ThermometerPlusMinus, "1 K"), (FieldNames.HygrometerPlusMinus, "5 %")]
        ),
        new(
            "Digital scale of 1\u00a0g, ±\u00a03\u00a0g",
            [(FieldNames.ScaleStep, "1 g"), (FieldNames.ScalePlusMinus, "3 g")]
        ),
        new(
            "Digital scale of 5\u00a0g, ±\u00a010\u00a0g",
            [(FieldNames.ScaleStep, "5 g"), (FieldNames.ScalePlusMinus, "10 g")]
        ),
        new(
            "Electronic vacuum gauge of 0.01 mbar",
            [
                (FieldNames.VacuumGauge, "absolute"),
                (FieldNames.VacuumGaugePlusMinus, "0.05 mbar"),
                (FieldNames.VacuumGaugeStep, "0.01 mbar"),
            ]
        ),
        new("Vacuum read on the low-side dial", [(FieldNames.VacuumGauge, "dial")]),
        new("Pump of 72 L/min (2.5 cfm)", [(FieldNames.PumpFreeAir, "72 L/min")]),
        new("Pump of 42 L/min (1.5 cfm)", [(FieldNames.PumpFreeAir, "42 L/min")]),
        new(
            "Lamp, detector, soap, nitrogen",
            [(FieldNames.LeakTests, "UV lamp, electronic detector, soap bubbles, nitrogen")]
        ),
        new("Detector and soap", [(FieldNames.LeakTests, "electronic detector, soap bubbles")]),
    ];

    /// <summary>A kit nobody described: dial gauges of class 1.6, a kitchen scale, a household thermometer.
    /// Figures by common practice.</summary>
    public static Kit Plain(Guid id, DateTimeOffset from) => new(id, from, FieldBag.Empty, []);

    private double Or(string field, double assumed) => Fields.Si(field) ?? assumed;

    /// <summary>Class 1.6 of a 250 psi (17 bar) dial: 28 kPa; common practice.</summary>
    public double LowGaugePlusMinusPa => Or(FieldNames.LowGaugePlusMinus, 28e3);

    /// <summary>Class 1.6 of a 500 psi (35 bar) dial: 55 kPa; common practice.</summary>
    public double HighGaugePlusMinusPa => Or(FieldNames.HighGaugePlusMinus, 55e3);
    public double ThermometerPlusMinusK => Or(FieldNames.ThermometerPlusMinus, 1.5);
    public double HygrometerPlusMinus => Or(FieldNames.HygrometerPlusMinus, 0.07);
    public double ScalePlusMinusKg =>
        Math.Max(Or(FieldNames.ScalePlusMinus, 0.005), Or(FieldNames.ScaleStep, 0.001) / 2);
    public bool HasAbsoluteVacuumGauge => Fields.Text(FieldNames.VacuumGauge) == Chosen.Absolute;

    /// <summary>±15 % of reading for an absolute gauge is handled where it is read; this is the floor. A dial
    /// resolves about half of 0.5 inHg: 1.7 kPa; common practice.</summary>
    public double VacuumGaugePlusMinusPa => Or(FieldNames.VacuumGaugePlusMinus, HasAbsoluteVacuumGauge ? 7 : 1700);
    public double VacuumGaugeStepPa => Or(FieldNames.VacuumGaugeStep, HasAbsoluteVacuumGauge ? 1.3 : 1700);
    public double PumpUltimatePa => Or(FieldNames.PumpUltimate, 7);
    public double HoseBoreM => Or(FieldNames.HoseBore, 5e-3);
    public double HoseLengthM => Or(FieldNames.HoseLength, 1.8);

    /// <summary>π/4·d²·l of one service hose.</summary>
    public double HoseVolumeM3 => Math.PI / 4 * HoseBoreM * HoseBoreM * HoseLengthM;

    public bool Has(string field) => Fields[field] is not null;

    public Container? Find(string containerName) =>
        Containers.FirstOrDefault(container =>
            string.Equals(container.Name, containerName, StringComparison.OrdinalIgnoreCase)
        );
}
