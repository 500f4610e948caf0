using System.Collections.Frozen;
using System.Collections.Immutable;
using Tightcold.Quantities;
using Tightcold.Tongues;

namespace Tightcold.App.Units;

/// <summary>Every unit a person may type, by kind of quantity: the one place where symbols meet conversions (<see
/// cref="Factor"/>).
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
                1,
                Factor.ZeroCelsius,
                "celsius",
                "centigrade",
                "Grad Celsius",
                "grados Celsius",
                "degrés Celsius",
                "stopni Celsjusza",
                "stopnie Celsjusza"
            ),
            Warmth("°F", Factor.Fahrenheit, Factor.ZeroFahrenheit, "fahrenheit"),
            Warmth("K", 1, 0, "kelvin")
        );
        yield return Row(
            QuantityKind.TemperatureDifference,
            Times("K", 1, "kelvin"),
            Times("C°", 1, "celsius"),
            Times("F°", Factor.Fahrenheit, "fahrenheit")
        );
        yield return Row(
            QuantityKind.GaugePressure,
            Times(
                "bar gauge",
                Factor.Bar,
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
            Times("psig", Factor.PoundPerSquareInch, "psi", "psi gauge", "lb/in2"),
            Times("kPa gauge", 1e3, "kPa", "kPag", "kPa g"),
            Times("MPa gauge", 1e6, "MPa", "MPag"),
            Times("Pa gauge", 1, "Pa"),
            // The letter behind it says against what: ü of German, n of Polish for pressure above the surrounding air.
            Technical("at", "kp/cm²", "kG/cm²", "kgf/cm²", "kg/cm²", "at gauge", "atü", "atn", "at nadciśnienia"),
            // A dial's vacuum scale counts downwards from the surrounding air: 28 inHg and -28 inHg are both a vacuum.
            new(
                "inHg vacuum",
                value => -Math.Abs(value * Factor.InchOfMercury),
                si => -si / Factor.InchOfMercury,
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
            Times("bar abs", Factor.Bar, Absolute("bar", "bara")),
            Times("psia", Factor.PoundPerSquareInch, Absolute("psi")),
            Times("hPa", 100, Absolute("hPa", "hectopascal", "hektopascal", "hektopaskal")),
            Times("mbar", Factor.Millibar, Absolute("mbar", "millibar", "mb", "milibar")),
            Times("kPa abs", 1e3, Absolute("kPa", "kPa")),
            Times("inHg", Factor.InchOfMercury, "inHg abs", "inches of mercury", "in Hg"),
            Times("mmHg", Factor.MillimetreOfMercury, "mmHg abs", "torr", "mm Hg"),
            Times("Pa", 1, Absolute("Pa")),
            Technical(
                "at abs",
                [.. Absolute("at"), .. Absolute("kp/cm²"), .. Absolute("kg/cm²"), .. Absolute("kgf/cm²")]
            )
        );
        yield return Row(
            QuantityKind.Vacuum,
            Times("mbar", Factor.Millibar, Absolute("mbar", "millibar", "milibar")),
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
            Times("Pa", 1, Absolute("Pa")),
            Times("hPa", 100, Absolute("hPa")),
            Times("kPa abs", 1e3, Absolute("kPa")),
            Times("torr", Factor.Torr, "mmHg", "mmHg abs")
        );
        yield return Row(
            QuantityKind.PressureDifference,
            Times("bar", Factor.Bar),
            Times("psi", Factor.PoundPerSquareInch),
            Times("kPa", 1e3),
            Times("mbar", Factor.Millibar, "millibar"),
            Times("hPa", 100),
            Times("Pa", 1),
            Times("inHg", Factor.InchOfMercury, "in Hg"),
            Micron("microns", "mTorr", "Mikron", "micras", "mikrony", "mikronów"),
            Times("mmHg", Factor.MillimetreOfMercury, "torr"),
            Technical("at", "kp/cm²", "kG/cm²", "kgf/cm²", "kg/cm²")
        );
        yield return Row(
            QuantityKind.Mass,
            Times("g", 1e-3, "gr", "gram", "grams", "gramme", "grammes", "Gramm", "gramo", "gramos", "gramy", "gramów"),
            Times(
                "kg",
                1,
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
            Times(
                "oz",
                Factor.Ounce,
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
            Times(
                "lb",
                Factor.Pound,
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
            Times(
                "mL",
                Factor.Millilitre,
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
            Times("fl oz", Factor.FluidOunce, "floz", "fluid ounce", "fluid ounces"),
            Times("L", Factor.Litre, "litre", "liter", "litres", "litro", "litros", "litr", "litry", "litrów")
        );
        yield return Row(
            QuantityKind.InternalVolume,
            Times(
                "L",
                Factor.Litre,
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
            Times("mL", Factor.Millilitre, "cc", "cm3", "ccm"),
            Times("in³", Factor.CubicInch, "cu in", "cubic inch"),
            Times("fl oz", Factor.FluidOunce, "fluid ounces")
        );
        yield return Row(
            QuantityKind.Length,
            Times("m", 1, "metre", "meter", "metro", "metros", "mètre", "mètres", "metr", "metry", "metrów"),
            Times("ft", Factor.Foot, Feet("'")),
            Times("cm", 1e-2),
            Times("in", Factor.Inch, Inches())
        );
        yield return Row(QuantityKind.Bore, Times("mm", 1e-3), Times("in", Factor.Inch, Inches()), Times("cm", 1e-2));
        yield return Row(
            QuantityKind.Altitude,
            Times(
                "m",
                1,
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
            Times("ft", Factor.Foot, Feet())
        );
        yield return Row(QuantityKind.Ratio, Times("%", 1e-2, Percent()));
        yield return Row(QuantityKind.RelativeHumidity, Times("%", 1e-2, Percent("% rh", "rh", "% rF", "% HR")));
        yield return Row(
            QuantityKind.Duration,
            Times(
                "min",
                Factor.Minute,
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
            Times(
                "h",
                Factor.Hour,
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
            Times(
                "s",
                1,
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
            Times(
                "days",
                Factor.Day,
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
            Times("rpm", 1 / Factor.Minute, "1/min", "r/min", "rev/min", "/min", "U/min", "min⁻¹", "tr/min", "obr/min")
        );
        yield return Row(
            QuantityKind.VolumeFlow,
            Times("L/min", Factor.Litre / Factor.Minute, "lpm", "litres per minute"),
            Times("cfm", Factor.CubicFoot / Factor.Minute, "ft3/min"),
            Times("m³/h", 1 / Factor.Hour)
        );
        yield return Row(
            QuantityKind.LeakRate,
            Per("g/yr", Times("g", 1e-3), Factor.Year, Yearly("g", "g/a")),
            Per("oz/yr", Times("oz", Factor.Ounce), Factor.Year, Yearly("oz")),
            Per("kg/yr", Times("kg", 1), Factor.Year, Yearly("kg", "kg/a")),
            Per("lb/yr", Times("lb", Factor.Pound), Factor.Year, Yearly("lb"))
        );
        yield return Row(
            QuantityKind.GasThroughput,
            Per("mbar·L/s", Times("mbar", Factor.Millibar), 1 / Factor.Litre),
            Per("Pa·m³/s", Times("Pa", 1), 1)
        );
        yield return Row(
            QuantityKind.PressureRise,
            Per("mbar/min", Times("mbar", Factor.Millibar), Factor.Minute),
            Per("micron/min", Micron(), Factor.Minute, "microns/min"),
            Per("Pa/min", Times("Pa", 1), Factor.Minute)
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

    private static Unit Times(string symbol, double factor, params string[] more) =>
        new(symbol, value => value * factor, si => si / factor, more);

    /// <summary>The technical atmosphere. Old gauges have it; nothing is shown in it, so it is not offered.</summary>
    private static Unit Technical(string symbol, params string[] more) =>
        Times(symbol, Factor.TechnicalAtmosphere, more) with
        {
            Offered = false,
        };

    /// <summary>A micrometre of mercury.</summary>
    private static Unit Micron(params string[] more) => Times("micron", 1e-3 * Factor.MillimetreOfMercury, more);

    /// <summary>A temperature: degrees of so many kelvins, from a zero of their own.</summary>
    private static Unit Warmth(string symbol, double degreeK, double zeroK, params string[] more) =>
        new(symbol, value => (value * degreeK) + zeroK, si => (si - zeroK) / degreeK, more);

    private static Unit Per(string symbol, Unit above, double belowSi, params string[] more) =>
        new(symbol, value => above.ToSi(value) / belowSi, si => above.FromSi(si * belowSi), more);
}
