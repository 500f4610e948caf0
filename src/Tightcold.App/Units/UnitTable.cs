using System.Collections.Frozen;
using System.Collections.Immutable;
using Tightcold.Quantities;
using UnitsNet;
using UnitsNet.Units;

namespace Tightcold.App.Units;

/// <summary>Every unit a person may type, by kind of quantity: the one place where symbols meet conversions.
/// Gauge and absolute pressures have their own lists, so that one is never read as the other.</summary>
internal static class UnitTable
{
    private static readonly FrozenDictionary<QuantityKind, ImmutableArray<Unit>> ByKind = Build().ToFrozenDictionary();

    /// <summary>The units of a kind; empty for a plain number.</summary>
    public static ImmutableArray<Unit> Of(QuantityKind kind) => ByKind.TryGetValue(kind, out var units) ? units : [];

    public static Unit? Find(QuantityKind kind, string typed) => Of(kind).FirstOrDefault(unit => unit.IsTyped(typed));

    /// <summary>A unit that is shown, by its symbol.</summary>
    public static Unit Get(QuantityKind kind, string symbol) => Of(kind).First(unit => unit.Symbol == symbol);

    private static IEnumerable<KeyValuePair<QuantityKind, ImmutableArray<Unit>>> Build()
    {
        yield return Row(
            QuantityKind.Temperature,
            Warmth("°C", TemperatureUnit.DegreeCelsius, "celsius", "centigrade"),
            Warmth("°F", TemperatureUnit.DegreeFahrenheit, "fahrenheit"),
            Warmth("K", TemperatureUnit.Kelvin, "kelvin")
        );
        yield return Row(
            QuantityKind.TemperatureDifference,
            Spread("K", TemperatureDeltaUnit.Kelvin, "kelvin"),
            Spread("C°", TemperatureDeltaUnit.DegreeCelsius, "celsius"),
            Spread("F°", TemperatureDeltaUnit.DegreeFahrenheit, "fahrenheit")
        );
        yield return Row(
            QuantityKind.GaugePressure,
            Force("bar gauge", PressureUnit.Bar, "bar", "barg", "bar g"),
            Force("psig", PressureUnit.PoundForcePerSquareInch, "psi", "psi gauge", "lb/in2"),
            Force("kPa gauge", PressureUnit.Kilopascal, "kPa", "kPag", "kPa g"),
            Force("MPa gauge", PressureUnit.Megapascal, "MPa", "MPag"),
            Force("Pa gauge", PressureUnit.Pascal, "Pa"),
            // A dial's vacuum scale counts downwards from the surrounding air: 28 inHg and -28 inHg are both a vacuum.
            new(
                "inHg vacuum",
                value => -Math.Abs(ForceToSi(value, PressureUnit.InchOfMercury)),
                si => -ForceFromSi(si, PressureUnit.InchOfMercury),
                "inHg",
                "inHg vac",
                "inches of mercury",
                "in Hg",
                "\"Hg"
            )
        );
        yield return Row(
            QuantityKind.AbsolutePressure,
            Force("bar abs", PressureUnit.Bar, "bara", "bar a", "bar absolute"),
            Force("psia", PressureUnit.PoundForcePerSquareInch, "psi abs", "psi a", "psi absolute"),
            Force("hPa", PressureUnit.Hectopascal, "hPa abs", "hectopascal"),
            Force("mbar", PressureUnit.Millibar, "mbar abs", "millibar", "mb"),
            Force("kPa abs", PressureUnit.Kilopascal, "kPa", "kPaa", "kPa a", "kPa absolute"),
            Force("inHg", PressureUnit.InchOfMercury, "inHg abs", "inches of mercury", "in Hg"),
            Force("mmHg", PressureUnit.MillimeterOfMercury, "mmHg abs", "torr"),
            Force("Pa", PressureUnit.Pascal, "Pa abs")
        );
        yield return Row(
            QuantityKind.Vacuum,
            Force("mbar", PressureUnit.Millibar, "mbar abs", "millibar"),
            Micron("microns", "µmHg", "umHg", "mTorr", "millitorr", "µ"),
            Force("Pa", PressureUnit.Pascal, "Pa abs"),
            Force("hPa", PressureUnit.Hectopascal, "hPa abs"),
            Force("kPa abs", PressureUnit.Kilopascal),
            Force("torr", PressureUnit.Torr, "mmHg", "mmHg abs")
        );
        yield return Row(
            QuantityKind.PressureDifference,
            Force("bar", PressureUnit.Bar),
            Force("psi", PressureUnit.PoundForcePerSquareInch),
            Force("kPa", PressureUnit.Kilopascal),
            Force("mbar", PressureUnit.Millibar, "millibar"),
            Force("hPa", PressureUnit.Hectopascal),
            Force("Pa", PressureUnit.Pascal),
            Force("inHg", PressureUnit.InchOfMercury, "in Hg"),
            Micron("microns", "mTorr"),
            Force("mmHg", PressureUnit.MillimeterOfMercury, "torr")
        );
        yield return Row(
            QuantityKind.Mass,
            Weight("g", MassUnit.Gram, "gr", "gram", "grams", "gramme", "grammes"),
            Weight("kg", MassUnit.Kilogram, "kilogram", "kilograms", "kilo"),
            Weight("oz", MassUnit.Ounce, "ounce", "ounces"),
            Weight("lb", MassUnit.Pound, "lbs", "pound", "pounds")
        );
        yield return Row(
            QuantityKind.LiquidVolume,
            Room("mL", VolumeUnit.Milliliter, "cc", "cm3", "ccm", "millilitre", "milliliter"),
            Room("fl oz", VolumeUnit.UsOunce, "floz", "fluid ounce", "fluid ounces"),
            Room("L", VolumeUnit.Liter, "litre", "liter")
        );
        yield return Row(
            QuantityKind.InternalVolume,
            Room("L", VolumeUnit.Liter, "litre", "litres", "liter", "liters"),
            Room("mL", VolumeUnit.Milliliter, "cc", "cm3", "ccm"),
            Room("in³", VolumeUnit.CubicInch, "cu in", "cubic inch"),
            Room("fl oz", VolumeUnit.UsOunce, "fluid ounces")
        );
        yield return Row(
            QuantityKind.Length,
            Way("m", LengthUnit.Meter, "metre", "meter"),
            Way("ft", LengthUnit.Foot, "feet", "foot", "'"),
            Way("cm", LengthUnit.Centimeter),
            Way("in", LengthUnit.Inch, "inch", "inches", "\"")
        );
        yield return Row(
            QuantityKind.Bore,
            Way("mm", LengthUnit.Millimeter),
            Way("in", LengthUnit.Inch, "inch", "inches", "\""),
            Way("cm", LengthUnit.Centimeter)
        );
        yield return Row(
            QuantityKind.Altitude,
            Way("m", LengthUnit.Meter, "metre", "metres", "meter", "meters"),
            Way("ft", LengthUnit.Foot, "feet", "foot")
        );
        yield return Row(QuantityKind.Ratio, Part("%", RatioUnit.Percent, "percent"));
        yield return Row(QuantityKind.RelativeHumidity, Part("%", RatioUnit.Percent, "percent", "% rh", "rh"));
        yield return Row(
            QuantityKind.Duration,
            Time("min", DurationUnit.Minute, "minute", "minutes", "mins"),
            Time("h", DurationUnit.Hour, "hour", "hours", "hr"),
            Time("s", DurationUnit.Second, "second", "seconds", "sec"),
            Time("days", DurationUnit.Day, "day", "d")
        );
        yield return Row(
            QuantityKind.RotationalSpeed,
            Turn("rpm", RotationalSpeedUnit.RevolutionPerMinute, "1/min", "r/min", "rev/min", "/min")
        );
        yield return Row(
            QuantityKind.VolumeFlow,
            Stream("L/min", VolumeFlowUnit.LiterPerMinute, "lpm", "litres per minute"),
            Stream("cfm", VolumeFlowUnit.CubicFootPerMinute, "ft3/min"),
            Stream("m³/h", VolumeFlowUnit.CubicMeterPerHour)
        );
        var year = Duration.FromDays(365.25).Seconds;
        var minute = Duration.FromMinutes(1).Seconds;
        yield return Row(
            QuantityKind.LeakRate,
            Per("g/yr", Weight("g", MassUnit.Gram), year, "g/year", "g/a"),
            Per("oz/yr", Weight("oz", MassUnit.Ounce), year, "oz/year"),
            Per("kg/yr", Weight("kg", MassUnit.Kilogram), year, "kg/year", "kg/a"),
            Per("lb/yr", Weight("lb", MassUnit.Pound), year, "lb/year")
        );
        yield return Row(
            QuantityKind.GasThroughput,
            Per("mbar·L/s", Force("mbar", PressureUnit.Millibar), 1 / Volume.FromLiters(1).CubicMeters),
            Per("Pa·m³/s", Force("Pa", PressureUnit.Pascal), 1)
        );
        yield return Row(
            QuantityKind.PressureRise,
            Per("mbar/min", Force("mbar", PressureUnit.Millibar), minute),
            Per("micron/min", Micron(), minute, "microns/min"),
            Per("Pa/min", Force("Pa", PressureUnit.Pascal), minute)
        );
    }

    private static KeyValuePair<QuantityKind, ImmutableArray<Unit>> Row(
        QuantityKind kind,
        params ReadOnlySpan<Unit> units
    ) => new(kind, [.. units]);

    private static double ForceToSi(double value, PressureUnit unit) => Pressure.From(value, unit).Pascals;

    private static double ForceFromSi(double si, PressureUnit unit) => Pressure.FromPascals(si).As(unit);

    private static Unit Force(string symbol, PressureUnit unit, params string[] more) =>
        new(symbol, value => ForceToSi(value, unit), si => ForceFromSi(si, unit), more);

    /// <summary>A micrometre of mercury.</summary>
    private static Unit Micron(params string[] more) =>
        new(
            "micron",
            value => ForceToSi(Length.FromMicrometers(value).Millimeters, PressureUnit.MillimeterOfMercury),
            si => Length.FromMillimeters(ForceFromSi(si, PressureUnit.MillimeterOfMercury)).Micrometers,
            more
        );

    private static Unit Warmth(string symbol, TemperatureUnit unit, params string[] more) =>
        new(
            symbol,
            value => UnitsNet.Temperature.From(value, unit).Kelvins,
            si => UnitsNet.Temperature.FromKelvins(si).As(unit),
            more
        );

    private static Unit Spread(string symbol, TemperatureDeltaUnit unit, params string[] more) =>
        new(
            symbol,
            value => TemperatureDelta.From(value, unit).Kelvins,
            si => TemperatureDelta.FromKelvins(si).As(unit),
            more
        );

    private static Unit Weight(string symbol, MassUnit unit, params string[] more) =>
        new(symbol, value => Mass.From(value, unit).Kilograms, si => Mass.FromKilograms(si).As(unit), more);

    private static Unit Room(string symbol, VolumeUnit unit, params string[] more) =>
        new(symbol, value => Volume.From(value, unit).CubicMeters, si => Volume.FromCubicMeters(si).As(unit), more);

    private static Unit Way(string symbol, LengthUnit unit, params string[] more) =>
        new(symbol, value => Length.From(value, unit).Meters, si => Length.FromMeters(si).As(unit), more);

    private static Unit Part(string symbol, RatioUnit unit, params string[] more) =>
        new(
            symbol,
            value => Ratio.From(value, unit).DecimalFractions,
            si => Ratio.FromDecimalFractions(si).As(unit),
            more
        );

    private static Unit Time(string symbol, DurationUnit unit, params string[] more) =>
        new(symbol, value => Duration.From(value, unit).Seconds, si => Duration.FromSeconds(si).As(unit), more);

    private static Unit Turn(string symbol, RotationalSpeedUnit unit, params string[] more) =>
        new(
            symbol,
            value => RotationalSpeed.From(value, unit).RevolutionsPerSecond,
            si => RotationalSpeed.FromRevolutionsPerSecond(si).As(unit),
            more
        );

    private static Unit Stream(string symbol, VolumeFlowUnit unit, params string[] more) =>
        new(
            symbol,
            value => VolumeFlow.From(value, unit).CubicMetersPerSecond,
            si => VolumeFlow.FromCubicMetersPerSecond(si).As(unit),
            more
        );

    private static Unit Per(string symbol, Unit above, double belowSi, params string[] more) =>
        new(symbol, value => above.ToSi(value) / belowSi, si => above.FromSi(si * belowSi), more);
}
