using System.Globalization;
using System.Text.RegularExpressions;
using Tightcold.App.Units;
using Tightcold.Jobs.Fields;
using Tightcold.Pages.Words;
using Tightcold.Tongues;

namespace Tightcold.Pages.Forms;

/// <summary>What stands in the inputs of a form: for a quantity a number and a unit, else one text. Read from a
/// posted form or from stored fields, and handed to the desk as one text per field.</summary>
public sealed partial class Typed
{
    /// <summary>In front of a unit: the number counts below zero. Decimal keypads of some phones have no
    /// minus.</summary>
    public const string BelowZero = "-";

    public static readonly Typed Nothing = new([], []);

    private readonly Dictionary<string, string> numbers;
    private readonly Dictionary<string, string> units;

    private Typed(Dictionary<string, string> numbers, Dictionary<string, string> units) =>
        (this.numbers, this.units) = (numbers, units);

    public string Number(string field) => numbers.GetValueOrDefault(field, "");

    public string? Unit(string field) => units.GetValueOrDefault(field);

    public static string NumberName(string field) => "f." + field;

    /// <summary>What a field is called in a page's own addresses.</summary>
    public static string Id(string field) => "f-" + field;

    public static string UnitName(string field) => "u." + field;

    /// <summary>The fields of a form that was sent.</summary>
    public static Typed FromSent(Schema schema, IReadOnlyDictionary<string, string> form)
    {
        var numbers = new Dictionary<string, string>(StringComparer.Ordinal);
        var units = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var field in schema.Fields)
        {
            if (form.TryGetValue(NumberName(field.Name), out var number))
                numbers[field.Name] = Kept(field, number.Trim());
            if (form.TryGetValue(UnitName(field.Name), out var unit))
                units[field.Name] = unit;
        }
        return new(numbers, units);
    }

    /// <summary>A suggestion that was tapped comes in the words it was shown in.</summary>
    private static string Kept(FieldSpec field, string text) =>
        field.Suggestions.FirstOrDefault(word => Say.It(word, null) == text) ?? text;

    public static Typed FromFields(Schema schema, FieldBag fields)
    {
        var numbers = new Dictionary<string, string>(StringComparer.Ordinal);
        var units = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var field in schema.Fields)
        {
            if (fields[field.Name] is not { } value)
                continue;
            var (number, unit) = Split(field, EntryWords.AsTyped(value));
            numbers[field.Name] = number;
            if (unit is not null)
                units[field.Name] = unit;
        }
        return new(numbers, units);
    }

    /// <summary>Everything that was typed, in the units of another reader; what cannot be read stays as it
    /// is.</summary>
    public Typed In(Schema schema, UnitSystem system)
    {
        var (others, symbols) = (
            new Dictionary<string, string>(numbers, StringComparer.Ordinal),
            new Dictionary<string, string>(units, StringComparer.Ordinal)
        );
        foreach (var field in schema.Fields.Where(field => field.Type is FieldType.Quantity))
        {
            // An empty field has no unit of its own.
            if (Number(field.Name).Length == 0)
                symbols.Remove(field.Name);
            else if (UnitOptions.Rewrite(field, Text(field), system) is var (number, unit))
                (others[field.Name], symbols[field.Name]) = (number, unit);
        }
        return new(others, symbols);
    }

    /// <summary>With a text in a field that holds none yet.</summary>
    public Typed With(FieldSpec field, string text)
    {
        var (number, unit) = Split(field, text);
        var (others, symbols) = (
            new Dictionary<string, string>(numbers, StringComparer.Ordinal),
            new Dictionary<string, string>(units, StringComparer.Ordinal)
        );
        if (others.GetValueOrDefault(field.Name, "").Length > 0)
            return this;
        others[field.Name] = number;
        if (unit is not null)
            symbols[field.Name] = unit;
        return new(others, symbols);
    }

    /// <summary>One text per field of the schema, blank where nothing was typed, so that a blank empties a
    /// field.</summary>
    public Dictionary<string, string> Texts(Schema schema) => schema.Fields.ToDictionary(field => field.Name, Text);

    private string Text(FieldSpec field)
    {
        var number = Number(field.Name);
        if (number.Length == 0 || field.Type is not FieldType.Quantity || Unit(field.Name) is not { Length: > 0 } unit)
            return number;
        // A person who types the unit too is taken at their word.
        if (number.Any(letter => char.IsLetter(letter) || letter is '°' or '%'))
            return number;
        if (!unit.StartsWith(BelowZero, StringComparison.Ordinal))
            return $"{number} {unit}";
        return $"-{number.TrimStart('-', '−', '+', ' ')} {unit[BelowZero.Length..]}";
    }

    /// <summary>A stored text as number and unit, where the unit is one that the form offers.</summary>
    internal static (string Number, string? Unit) Split(FieldSpec field, string asTyped)
    {
        if (field.Type is FieldType.Number)
            return (AsWritten(asTyped), null);
        if (field.Type is not FieldType.Quantity type)
            return (asTyped, null);
        var match = NumberThenUnit().Match(asTyped);
        if (!match.Success)
            return (asTyped, null);
        var unit = Offered(type, match.Groups["unit"].Value);
        return unit is null ? (asTyped, null) : UnitOptions.Fit(field, AsWritten(match.Groups["number"].Value), unit);
    }

    /// <summary>What is kept was in no doubt when it was typed: “1.013” is a little more than one. Where the reader's
    /// language has another sign before decimals it would look like a thousand, so that it is written with
    /// that.</summary>
    private static string AsWritten(string number)
    {
        var sign = Say.Tongue.Culture.NumberFormat.NumberDecimalSeparator;
        return LikeThousands().IsMatch(number)
            ? number.Replace(",", sign, StringComparison.Ordinal).Replace(".", sign, StringComparison.Ordinal)
            : number;
    }

    /// <summary>The offered unit that means the same as the typed one: “bar” and “bar gauge” of a gauge, and a unit's
    /// name in the reader's language.</summary>
    private static string? Offered(FieldType.Quantity type, string typedUnit)
    {
        // A reading with its own ± stays whole: the box for the number holds both.
        if (typedUnit.Contains('±', StringComparison.Ordinal) || typedUnit.Contains("+/-", StringComparison.Ordinal))
            return null;
        var symbols = UnitParser.UnitsFor(type.Kind, UnitSystem.Metric);
        if (symbols.Contains(typedUnit, StringComparer.OrdinalIgnoreCase))
            return symbols.First(symbol => string.Equals(symbol, typedUnit, StringComparison.OrdinalIgnoreCase));
        if (symbols.FirstOrDefault(symbol => UnitWords.Of(symbol, Say.Tongue) == typedUnit) is { } called)
            return called;
        double? Size(string unit) => UnitParser.Parse(type, "7 " + unit, CultureInfo.InvariantCulture).Value?.Value.Si;
        return Size(typedUnit) is { } meant ? symbols.FirstOrDefault(symbol => Size(symbol) == meant) : null;
    }

    [GeneratedRegex(@"^\s*[-+−]?\s*[1-9]\d{0,2}[.,]\d{3}\s*$", RegexOptions.CultureInvariant)]
    private static partial Regex LikeThousands();

    [GeneratedRegex(@"^\s*(?<number>[-+−]?\s*[\d.,]+)\s*(?<unit>\D.*?)\s*$", RegexOptions.CultureInvariant)]
    private static partial Regex NumberThenUnit();
}
