using System.Collections.Immutable;
using System.Globalization;
using Tightcold.Jobs.Fields;
using Tightcold.Quantities;
using Tightcold.Tongues;

namespace Tightcold.App.Units;

/// <summary>Reads what a person typed: a number with its unit, perhaps with its own ±. A number without a unit is
/// refused, and a gauge pressure is never taken for an absolute one.</summary>
public static class UnitParser
{
    /// <summary>Symbols to offer for a kind, the reader's own first; empty for a plain number.</summary>
    public static ImmutableArray<string> UnitsFor(QuantityKind kind, UnitSystem system)
    {
        var symbols = UnitTable.Of(kind).Select(unit => unit.Symbol).ToImmutableArray();
        var usual = ReaderUnits.UsualSymbol(kind, system);
        return usual is null ? symbols : [usual, .. symbols.Where(symbol => symbol != usual)];
    }

    public static (FieldValue.Quantity? Value, InputProblem? Problem) Parse(
        FieldType.Quantity type,
        string text,
        CultureInfo culture
    ) => Parse(Say.It(KindWords.Of(type.Kind)), type.Kind, text, culture);

    /// <summary>As above; a refusal names the field.</summary>
    public static (FieldValue.Quantity? Value, InputProblem? Problem) Parse(
        FieldSpec field,
        string text,
        CultureInfo culture
    ) =>
        field.Type is FieldType.Quantity type
            ? Parse(field.Name, type.Kind, text, culture)
            : throw new ArgumentException("this field holds no quantity", nameof(field));

    /// <summary>Symbol of the unit in a typed text, or null where that is not plain to see.</summary>
    internal static string? UnitOf(QuantityKind kind, string typed) =>
        UnitTable.Find(kind, NumberText.Read(typed.Split('±', '+')[0], CultureInfo.InvariantCulture).Rest)?.Symbol;

    private static (FieldValue.Quantity?, InputProblem?) Parse(
        string field,
        QuantityKind kind,
        string text,
        CultureInfo culture
    )
    {
        var typed = text.Trim();
        if (typed.Length == 0)
            return (null, new InputProblem(field, "", Needed(kind)));
        var parts = typed.Replace("+/-", "±", StringComparison.Ordinal).Split('±');
        if (parts.Length > 2)
            return (null, InputProblem.Of(field, typed, $"± may stand once, behind the number and its unit"));

        var main = NumberText.Read(parts[0], culture);
        if (main.Value is not { } number)
            return (null, NoNumber(field, typed, kind, main));
        var (unitText, plusMinus) = (main.Rest.Trim(), (double?)null);
        if (parts.Length == 2)
        {
            var (size, sizeUnit, trouble) = PlusMinus(field, typed, kind, parts[1], culture);
            if (trouble is not null)
                return (null, trouble);
            if (unitText.Length == 0)
                unitText = sizeUnit; // "68 ± 2 psig"
            plusMinus = size;
        }
        if (unitText.Length == 0)
            return (
                null,
                InputProblem.Of(field, typed, $"the unit is missing; write it behind the number: {Allowed(kind)}")
            );
        var si = ToSi(kind, number, unitText, culture);
        if (si is null)
            return (null, UnknownUnit(field, typed, kind, unitText));
        if (!double.IsFinite(si.Value))
            return (null, InputProblem.Of(field, typed, $"that number is too large"));
        return (new FieldValue.Quantity(new Measure(kind, si.Value), typed, plusMinus), null);
    }

    private static double? ToSi(QuantityKind kind, double number, string unitText, CultureInfo culture)
    {
        if (UnitTable.Find(kind, unitText) is { } unit)
            return unit.ToSi(number);
        // "1 lb 12 oz", as labels have it.
        if (kind != QuantityKind.Mass || !unitText.StartsWith("lb", StringComparison.OrdinalIgnoreCase))
            return null;
        var ounces = NumberText.Read(unitText[2..].TrimStart('s', '.', ' '), culture);
        return
            ounces.Value is >= 0 and < 16 and { } more
            && UnitTable.Find(kind, ounces.Rest) is { Symbol: "oz" } oz
            && number >= 0
            ? UnitTable.Get(kind, "lb").ToSi(number) + oz.ToSi(more)
            : null;
    }

    private static (double? Si, string Unit, InputProblem? Problem) PlusMinus(
        string field,
        string typed,
        QuantityKind kind,
        string text,
        CultureInfo culture
    )
    {
        var read = NumberText.Read(text, culture);
        if (read.Value is not { } size || size < 0)
            return (null, "", InputProblem.Of(field, typed, $"a number of zero or more is needed behind ±"));
        var unitText = read.Rest.Trim();
        if (unitText.Length == 0)
            return (
                null,
                "",
                InputProblem.Of(field, typed, $"the unit behind ± is missing: {Allowed(DifferenceOf(kind))}")
            );
        // A spread of the same kind: 2 psig of ± is the step from 0 to 2 psig; ± 2 °F is 2 F°.
        var unit = UnitTable.Find(DifferenceOf(kind), unitText) ?? UnitTable.Find(kind, unitText);
        return unit is null
            ? (
                null,
                "",
                InputProblem.Of(
                    field,
                    typed,
                    $"“{Phrase.Verbatim(unitText)}” behind ± is no unit for this; known are "
                        + $"{Allowed(DifferenceOf(kind))}"
                )
            )
            : (Math.Abs(unit.ToSi(size) - unit.ToSi(0)), unitText, null);
    }

    private static InputProblem NoNumber(string field, string typed, QuantityKind kind, NumberText.Result read) =>
        read.TwoWays is { } doubt
            ? InputProblem.Of(field, typed, $"{doubt}, then the unit: {Allowed(kind)}")
            : new InputProblem(field, typed, Needed(kind));

    private static InputProblem UnknownUnit(string field, string typed, QuantityKind kind, string unitText)
    {
        if (
            kind == QuantityKind.GaugePressure
            && (
                UnitTable.Find(QuantityKind.AbsolutePressure, unitText) ?? UnitTable.Find(QuantityKind.Vacuum, unitText)
            )
                is { } absolute
        )
            return InputProblem.Of(
                field,
                typed,
                $"“{Name(absolute)}” counts from perfect vacuum, and this field takes what a gauge shows against the "
                    + $"surrounding air: {Allowed(kind)}"
            );
        if (
            kind is QuantityKind.AbsolutePressure or QuantityKind.Vacuum
            && UnitTable.Find(QuantityKind.GaugePressure, unitText) is not null
        )
            return InputProblem.Of(
                field,
                typed,
                $"“{Phrase.Verbatim(unitText)}” counts from the surrounding air, and this field takes a pressure above "
                    + $"perfect vacuum: {Allowed(kind)}"
            );
        if (kind == QuantityKind.LiquidVolume && UnitTable.Find(QuantityKind.Mass, unitText) is not null)
            return InputProblem.Of(field, typed, $"oil is counted by volume, not by weight: {Allowed(kind)}");
        return InputProblem.Of(
            field,
            typed,
            $"“{Phrase.Verbatim(unitText)}” is no unit for this; known are {Allowed(kind)}"
        );
    }

    private static QuantityKind DifferenceOf(QuantityKind kind) =>
        kind switch
        {
            QuantityKind.GaugePressure or QuantityKind.AbsolutePressure or QuantityKind.Vacuum =>
                QuantityKind.PressureDifference,
            QuantityKind.Temperature => QuantityKind.TemperatureDifference,
            _ => kind,
        };

    private static Phrase Needed(QuantityKind kind) =>
        UnitTable.Of(kind).Length == 0
            ? Phrase.Words("a plain number is needed here")
            : Phrase.Of($"a number with its unit ({Allowed(kind)}) is needed here");

    private static Phrase Allowed(QuantityKind kind)
    {
        var units = UnitTable.Of(kind).Select(Name).ToArray();
        return units.Length < 2
            ? Phrase.Join("", units)
            : Phrase.Of($"{Phrase.Join(", ", units[..^1])} or {units[^1]}");
    }

    /// <summary>The symbol as the reader's language writes it.</summary>
    private static Phrase Name(Unit unit) => Phrase.Words(unit.Symbol, UnitWords.Where);
}
