using System.Collections.Frozen;
using System.Collections.Immutable;
using Tightcold.Quantities;
using Tightcold.Tongues;
using UnitsNet;
using UnitsNet.Units;

namespace Tightcold.App.Units;

/// <summary>Every unit a person may type, by kind of quantity: the one place where symbols meet conversions.
/// Gauge and absolute pressures have their own lists, so that one is never read as the other.</summary>
internal static class UnitTable
{
    private static readonly FrozenDictionary<QuantityKind, ImmutableArray<Unit>> ByKind = Build().ToFrozenDictionary();

    private static readonly FrozenDictionary<QuantityKind, ImmutableArray<Unit>> Offered = ByKind.ToFrozenDictionary(
        pair => pair.Key,
        pair => pair.Value.Where(unit => unit.Offered).ToImmutableArray()
    );

    /// <summary>The units of a kind that are offered; empty for a plain number.</summary>
    public static ImmutableArray<Unit> Of(QuantityKind kind) => Offered.TryGetValue(kind, out var units) ? units : [];

    /// <summary>By a spelling of any language; else as the reader's own language writes it on the page.</summary>
    public static Unit? Find(QuantityKind kind, string typed)
    {
        var all = All(kind);
        if (all.FirstOrDefault(unit => unit.IsTyped(typed)) is { } known)
            return known;
        var (key, tongue) = (Unit.Key(typed), Say.Tongue);
        return all.FirstOrDefault(unit => Unit.Key(UnitWords.Of(unit.Symbol, tongue)) == key);
    }

    /// <summary>A unit that is shown, by its symbol.</summary>
    public static Unit Get(QuantityKind kind, string symbol) => All(kind).First(unit => unit.Symbol == symbol);

    private static ImmutableArray<Unit> All(QuantityKind kind) => ByKind.TryGetValue(kind, out var units) ? units : [];

    private static IEnumerable<KeyValuePair<QuantityKind, ImmutableArray<Unit>>> Build()
    {
        yield return Row(
            QuantityKind.Temperature,
            Warmth(
                "°C",
                TemperatureUnit.DegreeCelsius,
                "celsius",
                "centigrade",
                "Grad Celsius",
                "grados Celsius",
                "degrés Celsius",
                "stopni Celsjusza",
                "stopnie Celsjusza"
            ),
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
            Force(
                "bar gauge",
                PressureUnit.Bar,
                "bar",
                "barg",
                "bar g",
                "bar Überdruck",
                "bar Ueberdruck",
                "bar Ü",
                "bar Ue",
                "bar manométrico",
                "bar manométricos",
                "bar manometrico",
                "bar manometricos",
                "bares",
                "bar relatif",
                "bar relatifs",
                "bar nadciśnienia",
                "bar nadcisnienia"
            ),
            Force("psig", PressureUnit.PoundForcePerSquareInch, "psi", "psi gauge", "lb/in2"),
            Force("kPa gauge", PressureUnit.Kilopascal, "kPa", "kPag", "kPa g"),
            Force("MPa gauge", PressureUnit.Megapascal, "MPa", "MPag"),
            Force("Pa gauge", PressureUnit.Pascal, "Pa"),
            // The letter behind it says against what: ü of German, n of Polish for pressure above the surrounding air.
            Technical("at", "kp/cm²", "kG/cm²", "kgf/cm²", "kg/cm²", "at gauge", "atü", "atn", "at nadciśnienia"),
            // A dial's vacuum scale counts downwards from the surrounding air: 28 inHg and -28 inHg are both a vacuum.
            new(
                "inHg vacuum",
                value => -Math.Abs(ForceToSi(value, PressureUnit.InchOfMercury)),
                si => -ForceFromSi(si, PressureUnit.InchOfMercury),
                "inHg",
                "inHg vac",
                "inches of mercury",
                "in Hg",
                "\"Hg",
                "inHg Vakuum",
                "Zoll Hg",
                "inHg vacío",
                "pulgadas de mercurio",
                "inHg vide",
                "pouces de mercure",
                "inHg próżni"
            )
        );
        yield return Row(
            QuantityKind.AbsolutePressure,
            Force("bar abs", PressureUnit.Bar, Absolute("bar", "bara")),
            Force("psia", PressureUnit.PoundForcePerSquareInch, Absolute("psi")),
            Force("hPa", PressureUnit.Hectopascal, Absolute("hPa", "hectopascal", "hektopascal", "hektopaskal")),
            Force("mbar", PressureUnit.Millibar, Absolute("mbar", "millibar", "mb", "milibar")),
            Force("kPa abs", PressureUnit.Kilopascal, Absolute("kPa", "kPa")),
            Force("inHg", PressureUnit.InchOfMercury, "inHg abs", "inches of mercury", "in Hg"),
            Force("mmHg", PressureUnit.MillimeterOfMercury, "mmHg abs", "torr", "mm Hg"),
            Force("Pa", PressureUnit.Pascal, Absolute("Pa")),
            Technical(
                "at abs",
                [.. Absolute("at"), .. Absolute("kp/cm²"), .. Absolute("kg/cm²"), .. Absolute("kgf/cm²")]
            )
        );
        yield return Row(
            QuantityKind.Vacuum,
            Force("mbar", PressureUnit.Millibar, Absolute("mbar", "millibar", "milibar")),
            Micron(
                "microns",
                "µmHg",
                "umHg",
                "mTorr",
                "millitorr",
                "µ",
                "Mikron",
                "micra",
                "micras",
                "mikrony",
                "mikronów"
            ),
            Force("Pa", PressureUnit.Pascal, Absolute("Pa")),
            Force("hPa", PressureUnit.Hectopascal, Absolute("hPa")),
            Force("kPa abs", PressureUnit.Kilopascal, Absolute("kPa")),
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
            Micron("microns", "mTorr", "Mikron", "micras", "mikrony", "mikronów"),
            Force("mmHg", PressureUnit.MillimeterOfMercury, "torr"),
            Technical("at", "kp/cm²", "kG/cm²", "kgf/cm²", "kg/cm²")
        );
        yield return Row(
            QuantityKind.Mass,
            Weight(
                "g",
                MassUnit.Gram,
                "gr",
                "gram",
                "grams",
                "gramme",
                "grammes",
                "Gramm",
                "gramo",
                "gramos",
                "gramy",
                "gramów"
            ),
            Weight(
                "kg",
                MassUnit.Kilogram,
                "kilogram",
                "kilograms",
                "kilo",
                "kilos",
                "Kilogramm",
                "kilogramo",
                "kilogramos",
                "kilogramme",
                "kilogrammes",
                "kilogramy",
                "kilogramów"
            ),
            Weight(
                "oz",
                MassUnit.Ounce,
                "ounce",
                "ounces",
                "Unze",
                "Unzen",
                "onza",
                "onzas",
                "once",
                "onces",
                "uncja",
                "uncje",
                "uncji"
            ),
            // No Pfund: that is half a kilogram.
            Weight(
                "lb",
                MassUnit.Pound,
                "lbs",
                "pound",
                "pounds",
                "libra",
                "libras",
                "livre",
                "livres",
                "funt",
                "funty",
                "funtów"
            )
        );
        yield return Row(
            QuantityKind.LiquidVolume,
            Room(
                "mL",
                VolumeUnit.Milliliter,
                "cc",
                "cm3",
                "ccm",
                "millilitre",
                "milliliter",
                "millilitres",
                "mililitro",
                "mililitros",
                "mililitr",
                "mililitry",
                "mililitrów"
            ),
            Room("fl oz", VolumeUnit.UsOunce, "floz", "fluid ounce", "fluid ounces"),
            Room("L", VolumeUnit.Liter, "litre", "liter", "litres", "litro", "litros", "litr", "litry", "litrów")
        );
        yield return Row(
            QuantityKind.InternalVolume,
            Room(
                "L",
                VolumeUnit.Liter,
                "litre",
                "litres",
                "liter",
                "liters",
                "litro",
                "litros",
                "litr",
                "litry",
                "litrów"
            ),
            Room("mL", VolumeUnit.Milliliter, "cc", "cm3", "ccm"),
            Room("in³", VolumeUnit.CubicInch, "cu in", "cubic inch"),
            Room("fl oz", VolumeUnit.UsOunce, "fluid ounces")
        );
        yield return Row(
            QuantityKind.Length,
            Way(
                "m",
                LengthUnit.Meter,
                "metre",
                "meter",
                "metro",
                "metros",
                "mètre",
                "mètres",
                "metr",
                "metry",
                "metrów"
            ),
            Way("ft", LengthUnit.Foot, Feet("'")),
            Way("cm", LengthUnit.Centimeter),
            Way("in", LengthUnit.Inch, Inches())
        );
        yield return Row(
            QuantityKind.Bore,
            Way("mm", LengthUnit.Millimeter),
            Way("in", LengthUnit.Inch, Inches()),
            Way("cm", LengthUnit.Centimeter)
        );
        yield return Row(
            QuantityKind.Altitude,
            Way(
                "m",
                LengthUnit.Meter,
                "metre",
                "metres",
                "meter",
                "meters",
                "metro",
                "metros",
                "mètre",
                "mètres",
                "metr",
                "metry",
                "metrów",
                "m n.p.m.",
                "m ü. NN"
            ),
            Way("ft", LengthUnit.Foot, Feet())
        );
        yield return Row(QuantityKind.Ratio, Part("%", RatioUnit.Percent, Percent()));
        yield return Row(
            QuantityKind.RelativeHumidity,
            Part("%", RatioUnit.Percent, Percent("% rh", "rh", "% rF", "% HR"))
        );
        yield return Row(
            QuantityKind.Duration,
            Time(
                "min",
                DurationUnit.Minute,
                "minute",
                "minutes",
                "mins",
                "Minuten",
                "minuto",
                "minutos",
                "minuta",
                "minuty",
                "minut"
            ),
            Time(
                "h",
                DurationUnit.Hour,
                "hour",
                "hours",
                "hr",
                "Std",
                "Stunde",
                "Stunden",
                "hora",
                "horas",
                "heure",
                "heures",
                "godz",
                "godzina",
                "godziny",
                "godzin"
            ),
            Time(
                "s",
                DurationUnit.Second,
                "second",
                "seconds",
                "sec",
                "Sek",
                "Sekunde",
                "Sekunden",
                "segundo",
                "segundos",
                "seconde",
                "secondes",
                "sekunda",
                "sekundy",
                "sekund"
            ),
            Time(
                "days",
                DurationUnit.Day,
                "day",
                "d",
                "Tag",
                "Tage",
                "Tagen",
                "día",
                "días",
                "dia",
                "dias",
                "jour",
                "jours",
                "j",
                "dzień",
                "dni"
            )
        );
        yield return Row(
            QuantityKind.RotationalSpeed,
            Turn(
                "rpm",
                RotationalSpeedUnit.RevolutionPerMinute,
                "1/min",
                "r/min",
                "rev/min",
                "/min",
                "U/min",
                "min⁻¹",
                "tr/min",
                "obr/min"
            )
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
            Per("g/yr", Weight("g", MassUnit.Gram), year, Yearly("g", "g/a")),
            Per("oz/yr", Weight("oz", MassUnit.Ounce), year, Yearly("oz")),
            Per("kg/yr", Weight("kg", MassUnit.Kilogram), year, Yearly("kg", "kg/a")),
            Per("lb/yr", Weight("lb", MassUnit.Pound), year, Yearly("lb"))
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

    /// <summary>That it counts from perfect vacuum, as each language writes it behind the unit.</summary>
    private static string[] Absolute(string symbol, params string[] more) =>
        [.. more, .. AbsoluteWords().Select(word => symbol + word)];

    private static string[] AbsoluteWords() =>
        [
            "a",
            "abs",
            "absolute",
            "absolut",
            "absoluto",
            "absolutos",
            "absolu",
            "absolus",
            "absolutne",
            "absolutny",
            "absolutnego",
            "absolutnych",
            "bezwzględne",
            "bezwzgl",
        ];

    private static string[] Inches() =>
        ["inch", "inches", "\"", "Zoll", "pulgada", "pulgadas", "pouce", "pouces", "cal", "cale", "cali"];

    private static string[] Feet(params string[] more) =>
        ["feet", "foot", .. more, "Fuß", "Fuss", "pie", "pies", "pied", "pieds", "stopa", "stopy", "stóp"];

    private static string[] Percent(params string[] more) =>
        ["percent", .. more, "Prozent", "por ciento", "pour cent", "procent"];

    private static string[] Yearly(string symbol, params string[] more) =>
        [$"{symbol}/year", .. more, $"{symbol}/Jahr", $"{symbol}/año", $"{symbol}/an", $"{symbol}/rok"];

    private static double ForceToSi(double value, PressureUnit unit) => Pressure.From(value, unit).Pascals;

    private static double ForceFromSi(double si, PressureUnit unit) => Pressure.FromPascals(si).As(unit);

    private static Unit Force(string symbol, PressureUnit unit, params string[] more) =>
        new(symbol, value => ForceToSi(value, unit), si => ForceFromSi(si, unit), more);

    /// <summary>The technical atmosphere, a kilogram-force on a square centimetre: 98 066.5 Pa exactly, from the
    /// 9.80665 N of the 3rd CGPM, 1901. The library's own unit of that name rests on another gravity. Old gauges have
    /// it; nothing is shown in it, so it is not offered.</summary>
    private static Unit Technical(string symbol, params string[] more) =>
        Force(symbol, PressureUnit.KilogramForcePerSquareCentimeter, more) with
        {
            Offered = false,
        };

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
