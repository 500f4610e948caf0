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
        Field.Text("owner", "Who works", 60),
        Field.Text("place", "Workshop or town", 60),
        Field.Of("altitude", "Altitude of the place", QuantityKind.Altitude, -500, 9000),
        Field.Text(
            "jurisdiction",
            "Country or region, for the rules",
            80,
            hint: "choose from the list; a code of ISO 3166 such as DE or AU-NSW settles it, “not said” leaves it open"
        ),
        Field.Choice("works", "You work", false, OwnCars, ForPay),
        Field.Text(
            "qualification",
            "Your certificate or licence for refrigerant",
            80,
            hint: "what your place asks for; empty if you hold none"
        ),
        Field.Of("low-gauge-plus-minus", "Low gauge ±", QuantityKind.PressureDifference, 100, 200e3),
        Field.Of("low-gauge-step", "Low gauge smallest step", QuantityKind.PressureDifference, 10, 200e3),
        Field.Of("low-gauge-zero", "Low gauge in open air reads", QuantityKind.GaugePressure, -50e3, 50e3),
        Field.Of("high-gauge-plus-minus", "High gauge ±", QuantityKind.PressureDifference, 100, 500e3),
        Field.Of("high-gauge-step", "High gauge smallest step", QuantityKind.PressureDifference, 10, 500e3),
        Field.Of("high-gauge-zero", "High gauge in open air reads", QuantityKind.GaugePressure, -100e3, 100e3),
        Field.Of("thermometer-plus-minus", "Thermometer ±", QuantityKind.TemperatureDifference, 0.05, 10),
        Field.Of("hygrometer-plus-minus", "Hygrometer ±", QuantityKind.RelativeHumidity, 0.005, 0.3),
        Field.Mass("scale-step", "Scale smallest step", 0.0001, 0.2),
        Field.Mass("scale-plus-minus", "Scale ±", 0.0001, 0.5),
        Field.Choice("vacuum-gauge", "Vacuum gauge", false, "dial", "absolute"),
        Field.Of("vacuum-gauge-plus-minus", "Vacuum gauge ±", QuantityKind.PressureDifference, 0.1, 10e3),
        Field.Of("vacuum-gauge-step", "Vacuum gauge smallest step", QuantityKind.PressureDifference, 0.01, 10e3),
        Field.Of("pump-free-air", "Pump free-air rate", QuantityKind.VolumeFlow, 1e-4, 0.02),
        Field.Of("pump-ultimate", "Pump ultimate vacuum", QuantityKind.Vacuum, 0.1, 10e3),
        Field.Of("hose-bore", "Service hose bore", QuantityKind.Bore, 1e-3, 0.02),
        Field.Of("hose-length", "Service hose length", QuantityKind.Length, 0.1, 10),
        Field.Text("leak-tests", "Leak tests owned", 200, hint: "UV lamp, electronic detector, soap bubbles, nitrogen"),
        Field.Text("currency", "Currency", 8),
        Field.Number("price-refrigerant", "Refrigerant, price of a kilogram", 0, 1e6),
        Field.Number("price-part", "Seal or part for one spot", 0, 1e6),
        Field.Number("price-opening", "Drier, oil, nitrogen: each opening", 0, 1e6),
        Field.Number("price-hour", "An hour of your work is worth", 0, 1e6, hint: "0 if you do it for pleasure"),
        Field.Number("price-workshop", "A workshop’s price to find and mend", 0, 1e6),
        Field.Number("price-years", "Years to look ahead", 0.5, 20),
        Field.Number(
            "cools-for",
            "A repair should cool for so many years",
            0.25,
            10,
            hint: "what “proven tight” means with you; 2 unless you say otherwise"
        )
    );

    /// <summary>A kit nobody described: dial gauges of class 1.6, a kitchen scale, a household thermometer.
    /// Figures by common practice.</summary>
    public static Kit Plain(Guid id, DateTimeOffset from) => new(id, from, FieldBag.Empty, []);

    private double Or(string field, double assumed) => Fields.Si(field) ?? assumed;

    /// <summary>Class 1.6 of a 250 psi (17 bar) dial: 28 kPa; common practice.</summary>
    public double LowGaugePlusMinusPa => Or("low-gauge-plus-minus", 28e3);

    /// <summary>Class 1.6 of a 500 psi (35 bar) dial: 55 kPa; common practice.</summary>
    public double HighGaugePlusMinusPa => Or("high-gauge-plus-minus", 55e3);
    public double ThermometerPlusMinusK => Or("thermometer-plus-minus", 1.5);
    public double HygrometerPlusMinus => Or("hygrometer-plus-minus", 0.07);
    public double ScalePlusMinusKg => Math.Max(Or("scale-plus-minus", 0.005), Or("scale-step", 0.001) / 2);
    public bool HasAbsoluteVacuumGauge => Fields.Text("vacuum-gauge") == "absolute";

    /// <summary>±15 % of reading for an absolute gauge is handled where it is read; this is the floor. A dial
    /// resolves about half of 0.5 inHg: 1.7 kPa; common practice.</summary>
    public double VacuumGaugePlusMinusPa => Or("vacuum-gauge-plus-minus", HasAbsoluteVacuumGauge ? 7 : 1700);
    public double VacuumGaugeStepPa => Or("vacuum-gauge-step", HasAbsoluteVacuumGauge ? 1.3 : 1700);
    public double PumpUltimatePa => Or("pump-ultimate", 7);
    public double HoseBoreM => Or("hose-bore", 5e-3);
    public double HoseLengthM => Or("hose-length", 1.8);

    /// <summary>π/4·d²·l of one service hose.</summary>
    public double HoseVolumeM3 => Math.PI / 4 * HoseBoreM * HoseBoreM * HoseLengthM;

    public bool Has(string field) => Fields[field] is not null;

    public Container? Find(string containerName) =>
        Containers.FirstOrDefault(container =>
            string.Equals(container.Name, containerName, StringComparison.OrdinalIgnoreCase)
        );
}
