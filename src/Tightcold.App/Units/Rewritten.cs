using System.Globalization;
using Tightcold.Jobs.Fields;
using Tightcold.Quantities;
using Tightcold.Tongues;

namespace Tightcold.App.Units;

/// <summary>A number that a person typed, in the unit that they would rather see; and a unit as a straight line, for a
/// script that moves a mark while somebody types.</summary>
public static class Rewritten
{
    /// <summary>So many figures that going there and back gives what was typed.</summary>
    private const string Figures = "G4";

    /// <summary>The same quantity in a unit, as this reader's language writes it; null where the text cannot be
    /// read.</summary>
    public static string? In(FieldType.Quantity type, string text, string symbol)
    {
        ArgumentNullException.ThrowIfNull(type);
        if (UnitParser.Parse(type, text, Say.Tongue.Culture).Value is not { } read)
            return null;
        var unit = UnitTable.Find(type.Kind, symbol);
        // The fourth figure may lie before the point; G4 would write a power of ten then.
        return unit is null
            ? null
            : (
                (decimal)
                    double.Parse(
                        unit.FromSi(read.Value.Si).ToString(Figures, CultureInfo.InvariantCulture),
                        CultureInfo.InvariantCulture
                    )
            ).ToString("0.########", Say.Tongue.Culture);
    }

    /// <summary>What one step of the unit is in SI, and where its zero lies.</summary>
    public static (double Step, double Zero) Line(QuantityKind kind, string symbol)
    {
        var unit = UnitTable.Get(kind, symbol);
        return (unit.ToSi(1) - unit.ToSi(0), unit.ToSi(0));
    }

    /// <summary>The unit that a form of this reader starts with.</summary>
    public static string Usual(QuantityKind kind, UnitSystem system) => ReaderUnits.UsualSymbol(kind, system) ?? "";
}
