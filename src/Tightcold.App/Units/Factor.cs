namespace Tightcold.App.Units;

/// <summary>So many SI units is one of these. Exact by the definitions of the inch, the pound and the standard gravity, as
/// [nist811] has them, where no figure is given; a test holds each against a units library.</summary>
internal static class Factor
{
    private const double StandardGravity = 9.80665;

    public const double Pound = 0.45359237,
        Ounce = Pound / 16,
        Inch = 0.0254,
        Foot = 12 * Inch,
        Minute = 60,
        Hour = 60 * Minute,
        Day = 24 * Hour,
        Year = 365.25 * Day;

    public const double Bar = 1e5,
        Millibar = 100,
        PoundPerSquareInch = Pound * StandardGravity / (Inch * Inch),
        // Conventional: mercury of 13 595.1 kg/m³.
        MillimetreOfMercury = 13595.1e-3 * StandardGravity,
        InchOfMercury = 25.4 * MillimetreOfMercury,
        Torr = 101_325.0 / 760,
        // A kilogram-force on a square centimetre: 98 066.5 Pa.
        TechnicalAtmosphere = 1e4 * StandardGravity;

    public const double Litre = 1e-3,
        Millilitre = 1e-6,
        CubicInch = Inch * Inch * Inch,
        CubicFoot = Foot * Foot * Foot,
        // Of the United States: a gallon of 231 cubic inches has 128.
        FluidOunce = 231 * CubicInch / 128;

    public const double PoundPerCubicFoot = Pound / CubicFoot,
        // J/kg: of the international table's British thermal unit, by definition.
        BtuPerPound = 2326,
        // J/(kg K): that a degree Fahrenheit.
        BtuPerPoundFahrenheit = BtuPerPound / Fahrenheit;

    /// <summary>A degree, K.</summary>
    public const double Fahrenheit = 5.0 / 9;

    /// <summary>Where the degrees begin, K.</summary>
    public const double ZeroCelsius = 273.15,
        ZeroFahrenheit = 459.67 * Fahrenheit;
}
