using System.Globalization;

namespace Tightcold.Quantities;

/// <summary>SI with the kind's name, for logs, tests and debuggers; people get their own units from the
/// edges.</summary>
public sealed class SiFormat : IMeasureFormat
{
    public static readonly SiFormat Instance = new();

    public string Format(Measure value) =>
        value.Kind == QuantityKind.Number
            ? value.Si.ToString("G6", CultureInfo.InvariantCulture)
            : string.Create(CultureInfo.InvariantCulture, $"{value.Si:G6} {value.Kind}");

    public string Format(Measure low, Measure high) =>
        string.Create(CultureInfo.InvariantCulture, $"{low.Si:G6} to {high.Si:G6} {low.Kind}");
}
