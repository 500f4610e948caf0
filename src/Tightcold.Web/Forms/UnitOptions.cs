using Tightcold.App.Units;
using Tightcold.Jobs.Fields;
using Tightcold.Quantities;

namespace Tightcold.Web.Forms;

/// <summary>The units a field offers, the reader's own first. A temperature that may lie below zero offers that
/// as a choice, because a decimal keypad may have no minus.</summary>
internal static class UnitOptions
{
    private const double ZeroFahrenheitKelvins = 255.372;

    public static IEnumerable<(string Value, string Shown)> Of(FieldType.Quantity type, UnitSystem system)
    {
        foreach (var symbol in UnitParser.UnitsFor(type.Kind, system))
        {
            yield return (symbol, symbol);
            if (type.Kind == QuantityKind.Temperature && symbol is "°C" or "°F" && type.MinSi < ZeroFahrenheitKelvins)
            {
                // The sign stands first, so that a narrow box still shows it.
                yield return (Typed.BelowZero + symbol, $"−{symbol} below zero");
            }
        }
    }
}
