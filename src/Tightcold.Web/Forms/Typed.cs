using System.Collections.Immutable;
using System.Text.RegularExpressions;
using Microsoft.AspNetCore.Http;
using Tightcold.App.Units;
using Tightcold.Jobs.Fields;
using Tightcold.Web.Words;

namespace Tightcold.Web.Forms;

/// <summary>What stands in the inputs of a form: for a quantity a number and a unit, else one text. Read from a
/// posted form or from stored fields, and handed to the desk as one text per field.</summary>
public sealed partial class Typed
{
    /// <summary>In front of a unit: the number counts below zero. Decimal keypads of some phones have no minus.</summary>
    public const string BelowZero = "-";

    public static readonly Typed Nothing = new([], []);

    private readonly Dictionary<string, string> numbers;
    private readonly Dictionary<string, string> units;

    private Typed(Dictionary<string, string> numbers, Dictionary<string, string> units) => (this.numbers, this.units) = (numbers, units);

    public string Number(string field) => numbers.GetValueOrDefault(field, "");
    public string? Unit(string field) => units.GetValueOrDefault(field);

    public static string NumberName(string field) => "f." + field;
    public static string UnitName(string field) => "u." + field;

    public static Typed FromPost(Schema schema, IFormCollection form)
    {
        var numbers = new Dictionary<string, string>(StringComparer.Ordinal);
        var units = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var field in schema.Fields)
        {
            if (form.TryGetValue(NumberName(field.Name), out var number)) numbers[field.Name] = number.ToString().Trim();
            if (form.TryGetValue(UnitName(field.Name), out var unit)) units[field.Name] = unit.ToString();
        }
        return new(numbers, units);
    }

    public static Typed FromFields(Schema schema, FieldBag fields)
    {
        var numbers = new Dictionary<string, string>(StringComparer.Ordinal);
        var units = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var field in schema.Fields)
        {
            if (fields[field.Name] is not { } value) continue;
            var (number, unit) = Split(field, EntryWords.AsTyped(value));
            numbers[field.Name] = number;
            if (unit is not null) units[field.Name] = unit;
        }
        return new(numbers, units);
    }

    /// <summary>One text per field of the schema, blank where nothing was typed, so that a blank empties a field.</summary>
    public Dictionary<string, string> Texts(Schema schema) => schema.Fields.ToDictionary(field => field.Name, Text);

    private string Text(FieldSpec field)
    {
        var number = Number(field.Name);
        if (number.Length == 0 || field.Type is not FieldType.Quantity || Unit(field.Name) is not { Length: > 0 } unit) return number;
        // A person who types the unit too is taken at their word.
        if (number.Any(letter => char.IsLetter(letter) || letter is '°' or '%')) return number;
        if (!unit.StartsWith(BelowZero, StringComparison.Ordinal)) return $"{number} {unit}";
        return $"-{number.TrimStart('-', '−', '+', ' ')} {unit[BelowZero.Length..]}";
    }

    /// <summary>A stored text as number and unit, where the unit is one that the form offers.</summary>
    internal static (string Number, string? Unit) Split(FieldSpec field, string asTyped)
    {
        if (field.Type is not FieldType.Quantity type) return (asTyped, null);
        var match = NumberThenUnit().Match(asTyped);
        if (!match.Success) return (asTyped, null);
        var unit = UnitParser.UnitsFor(type.Kind, UnitSystem.Metric)
            .FirstOrDefault(symbol => string.Equals(symbol, match.Groups["unit"].Value, StringComparison.OrdinalIgnoreCase));
        return unit is null ? (asTyped, null) : (match.Groups["number"].Value, unit);
    }

    [GeneratedRegex(@"^\s*(?<number>[-+−]?\s*[\d.,]+)\s*(?<unit>\D.*?)\s*$", RegexOptions.CultureInvariant)]
    private static partial Regex NumberThenUnit();
}
