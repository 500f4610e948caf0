using Tightcold.App.Units;
using Tightcold.Jobs.Fields;
using Tightcold.Quantities;
using Tightcold.Tongues;

namespace Tightcold.Pages.Forms;

/// <summary>The units a field offers, the reader's own first. A temperature that may lie below zero offers that
/// as a choice, because a decimal keypad may have no minus.</summary>
internal static class UnitOptions
{
    private const double ZeroFahrenheitKelvins = 255.372;

    /// <summary>Gauge fields that may read below the surrounding air.</summary>
    private static readonly string[] MayBeVacuum = ["dial", FieldNames.FinalPressure, FieldNames.PressureAfterWait];

    private const string Dial = "dial";

    /// <summary>The value is the same in every language, what is shown is in the reader's.</summary>
    public static IEnumerable<(string Value, string Shown)> Of(
        FieldSpec field,
        FieldType.Quantity type,
        UnitSystem system
    )
    {
        // A dial's vacuum scale counts down from the surrounding air: it needs no sign, and nothing else stands on it.
        if (field.Name == Dial)
        {
            (string, string) inches = ("inHg vacuum", Say.It("inHg below air")),
                bar = (Typed.BelowZero + "bar gauge", Say.It("−bar below air"));
            return
            [
                .. system == UnitSystem.Us ? new[] { inches, bar } : [bar, inches],
                (Typed.BelowZero + "kPa gauge", Say.It("−kPa below air")),
            ];
        }
        return Usual(field, type, system);
    }

    private static IEnumerable<(string Value, string Shown)> Usual(
        FieldSpec field,
        FieldType.Quantity type,
        UnitSystem system
    )
    {
        foreach (var symbol in UnitParser.UnitsFor(type.Kind, system))
        {
            yield return (symbol, UnitWords.Of(symbol, Say.Tongue));
            // The sign stands first, so that a narrow box still shows it.
            if (type.Kind == QuantityKind.Temperature && symbol is "°C" or "°F" && type.MinSi < ZeroFahrenheitKelvins)
                yield return (Typed.BelowZero + symbol, Say.It($"−{symbol} below zero"));
            if (symbol == "bar gauge" && MayBeVacuum.Contains(field.Name))
                yield return (Typed.BelowZero + symbol, Say.It("−bar below air"));
        }
    }

    /// <summary>The option that a number with its sign belongs to, and the number as that option takes it.</summary>
    public static (string Number, string Unit) Fit(FieldSpec field, string number, string unit)
    {
        var below = number.TrimStart().StartsWith('-') || number.TrimStart().StartsWith('−');
        if (!MayBeVacuum.Contains(field.Name) || !below || unit == "inHg vacuum")
            return (number, unit);
        var plain = number.TrimStart('-', '−', ' ');
        return unit is "bar gauge" or "kPa gauge" ? (plain, Typed.BelowZero + unit) : (number, unit);
    }

    /// <summary>A stored or typed text in the unit that this reader starts with; null where it cannot be
    /// read.</summary>
    public static (string Number, string Unit)? Rewrite(FieldSpec field, string text, UnitSystem system)
    {
        if (field.Type is not FieldType.Quantity type)
            return null;
        var (first, below) = (Of(field, type, system).First().Value, false);
        if (first.StartsWith(Typed.BelowZero, StringComparison.Ordinal))
            (first, below) = (first[Typed.BelowZero.Length..], true);
        // Below the air psi has no scale on a gauge, inches of mercury have.
        var number = Rewritten.In(type, text, first);
        if (number is not null && number.StartsWith('-') && first == "psig")
            (first, number) = ("inHg vacuum", Rewritten.In(type, text, "inHg vacuum"));
        if (number is null)
            return null;
        return below ? (number.TrimStart('-'), Typed.BelowZero + first) : Fit(field, number, first);
    }
}
