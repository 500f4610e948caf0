using System.Globalization;
using Tightcold.Jobs.Fields;
using Tightcold.Quantities;
using Tightcold.Tongues;

namespace Tightcold.App.Units;

/// <summary>Measures in the units and the language of a reader. Every number carries its unit; digits are as many
/// as the trade reads, not more. Immutable.</summary>
public sealed class ReaderUnits(UnitSystem system, CultureInfo culture, Tongue tongue) : IMeasureFormat
{
    public ReaderUnits(UnitSystem system, Tongue tongue)
        : this(system, CultureOf(tongue), tongue) { }

    public ReaderUnits(UnitSystem system, CultureInfo culture)
        : this(system, culture, AllTongues.English) { }

    public UnitSystem System { get; } = system;
    public CultureInfo Culture { get; } = culture;
    public Tongue Language { get; } = tongue;
    public ITongue Tongue => Language;

    private static CultureInfo CultureOf(Tongue tongue)
    {
        ArgumentNullException.ThrowIfNull(tongue);
        return tongue.Culture;
    }

    public string Format(Measure value)
    {
        var shown = Choose(value.Kind, Math.Abs(value.Si), value.Si);
        return WithUnit(Number(value.Si, shown), shown);
    }

    /// <summary>“4.5 to 4.9 bar gauge”: one unit for both, chosen for the larger.</summary>
    public string Format(Measure low, Measure high)
    {
        // A vacuum scale cannot show what lies above the surrounding air, so a range across zero stays on one scale.
        var shown = Choose(low.Kind, Math.Max(Math.Abs(low.Si), Math.Abs(high.Si)), Math.Max(low.Si, high.Si));
        return Range(low.Si, high.Si, shown);
    }

    /// <summary>A value and its range, both in the one unit that suits the largest of the three.</summary>
    public (string Value, string Range) Format(Measure value, Measure low, Measure high)
    {
        var shown = Choose(
            value.Kind,
            Math.Max(Math.Abs(value.Si), Math.Max(Math.Abs(low.Si), Math.Abs(high.Si))),
            Math.Max(value.Si, Math.Max(low.Si, high.Si))
        );
        return (WithUnit(Number(value.Si, shown), shown), Range(low.Si, high.Si, shown));
    }

    private string Range(double low, double high, Shown shown)
    {
        var (first, second) = (Number(low, shown), Number(high, shown));
        if (shown.Symbol == "inHg vacuum")
            (first, second) = (second, first); // that scale counts downwards
        return first == second
            ? WithUnit(first, shown)
            : WithUnit(string.Format(Culture, UnitWords.Of("{0} to {1}", Language), first, second), shown);
    }

    /// <summary>What the person typed, and behind it the same in this reader's unit where that is another one:
    /// “68 psig (4.7 bar gauge)”.</summary>
    public string WithTyped(FieldValue.Quantity quantity)
    {
        var shown = Choose(quantity.Value.Kind, Math.Abs(quantity.Value.Si), quantity.Value.Si);
        var typed = UnitParser.UnitOf(quantity.Value.Kind, quantity.AsTyped);
        return typed is not null && typed == shown.Symbol
            ? quantity.AsTyped
            : $"{quantity.AsTyped} ({Format(quantity.Value)})";
    }

    /// <summary>The unit a form starts with.</summary>
    internal static string? UsualSymbol(QuantityKind kind, UnitSystem system) =>
        (kind, system) switch
        {
            (QuantityKind.GaugePressure, UnitSystem.Us) => "psig",
            (QuantityKind.AbsolutePressure, UnitSystem.Us) => "inHg",
            (QuantityKind.AbsolutePressure, UnitSystem.Metric) => "hPa",
            (QuantityKind.Vacuum, UnitSystem.Us) => "micron",
            (QuantityKind.PressureDifference, UnitSystem.Us) => "psi",
            (QuantityKind.Temperature, UnitSystem.Us) => "°F",
            (QuantityKind.TemperatureDifference, UnitSystem.Us) => "F°",
            (QuantityKind.Mass, UnitSystem.Us) => "oz",
            (QuantityKind.LiquidVolume, UnitSystem.Us) => "fl oz",
            (QuantityKind.InternalVolume, UnitSystem.Us) => "in³",
            (QuantityKind.Length or QuantityKind.Altitude, UnitSystem.Us) => "ft",
            (QuantityKind.Bore, UnitSystem.Us) => "in",
            (QuantityKind.VolumeFlow, UnitSystem.Us) => "cfm",
            (QuantityKind.LeakRate, UnitSystem.Us) => "oz/yr",
            (QuantityKind.PressureRise, UnitSystem.Us) => "micron/min",
            _ => UnitTable.Of(kind).FirstOrDefault()?.Symbol,
        };

    /// <summary>From here on grams a year are more figures than a leak rate bears.</summary>
    private const double KilogramPerYear = 1 / (365.25 * 86400);

    private readonly record struct Shown(QuantityKind Kind, string? Symbol, int Decimals, bool Scientific = false);

    private Shown Choose(QuantityKind kind, double size, double highest)
    {
        if (kind == QuantityKind.Number)
            return new(
                kind,
                null,
                size >= 100 ? 0
                    : size >= 10 ? 1
                    : 2
            );
        var symbol = Symbol(kind, size, highest) ?? UsualSymbol(kind, System)!;
        var shownSize = Math.Abs(kind == QuantityKind.Temperature ? 0 : UnitTable.Get(kind, symbol).FromSi(size));
        return new(
            kind,
            symbol,
            Decimals(kind, symbol, shownSize),
            kind == QuantityKind.GasThroughput && shownSize is > 0 and < 0.01
        );
    }

    private string? Symbol(QuantityKind kind, double size, double highest)
    {
        var us = System == UnitSystem.Us;
        return kind switch
        {
            QuantityKind.GaugePressure when us && highest < -500 => "inHg vacuum",
            QuantityKind.AbsolutePressure => us ? "psia" : "bar abs",
            QuantityKind.PressureDifference when size < 500 => us ? "micron"
            : size < 100 ? "Pa"
            : "mbar",
            QuantityKind.PressureDifference when size < 10e3 && !us => "mbar",
            QuantityKind.Mass when size >= 3 => us ? "lb" : "kg",
            QuantityKind.LeakRate when size >= KilogramPerYear => us ? "lb/yr" : "kg/yr",
            QuantityKind.InternalVolume when size < 0.2e-3 => us ? "in³" : "mL",
            QuantityKind.LiquidVolume when size >= 1e-3 && !us => "L",
            QuantityKind.Duration => size < 120 ? "s"
            : size < 120 * 60 ? "min"
            : size < 48 * 3600 ? "h"
            : "days",
            _ => null,
        };
    }

    private static int Decimals(QuantityKind kind, string symbol, double size) =>
        (kind, symbol) switch
        {
            (QuantityKind.Temperature or QuantityKind.TemperatureDifference, _) => 1,
            (QuantityKind.GaugePressure, "bar gauge") => size < 1 ? 2 : 1,
            (QuantityKind.GaugePressure, "psig") => size < 10 ? 1 : 0,
            (QuantityKind.GaugePressure, _) => 1,
            (QuantityKind.AbsolutePressure, "bar abs") => size < 2 ? 3 : 1,
            (QuantityKind.AbsolutePressure, _) => 1,
            (QuantityKind.Mass, "g") => size < 20 ? 1 : 0,
            (QuantityKind.Mass, "oz") => size < 10 ? 2 : 1,
            (QuantityKind.Mass, _) => size >= 100 ? 0 : 2,
            (QuantityKind.LeakRate, "kg/yr" or "lb/yr") => size < 10 ? 1 : 0,
            (QuantityKind.Altitude or QuantityKind.RotationalSpeed, _) => 0,
            (QuantityKind.Vacuum or QuantityKind.PressureDifference, "micron" or "Pa") => size < 10 ? 1 : 0,
            (QuantityKind.Ratio or QuantityKind.RelativeHumidity, _) => size < 10 ? 1 : 0,
            (QuantityKind.Duration, "s") => size < 10 ? 1 : 0,
            (QuantityKind.Duration, "min") => size < 10 ? 1 : 0,
            (QuantityKind.Duration, _) => 1,
            (QuantityKind.Bore, "in") => 3,
            (QuantityKind.Bore, _) => 1,
            (QuantityKind.Length, _) => size < 10 ? 2 : 1,
            _ => size >= 100 ? 0
            : size >= 10 ? 1
            : size >= 0.1 ? 2
            : 3,
        };

    private string Number(double si, Shown shown)
    {
        var value = shown.Symbol is null ? si : UnitTable.Get(shown.Kind, shown.Symbol).FromSi(si);
        if (shown.Scientific)
            return Scientific(value);
        var rounded = Math.Round(value, shown.Decimals, MidpointRounding.AwayFromZero);
        if (rounded == 0)
            rounded = 0; // no "-0.0"
        var text = rounded.ToString("F" + shown.Decimals.ToString(CultureInfo.InvariantCulture), Culture);
        return shown.Kind == QuantityKind.Number && shown.Decimals > 0 ? text.TrimEnd('0').TrimEnd('.', ',') : text;
    }

    private string Scientific(double value)
    {
        if (value == 0)
            return "0";
        var exponent = (int)Math.Floor(Math.Log10(Math.Abs(value)));
        var digits = (value / Math.Pow(10, exponent)).ToString("F1", Culture);
        return $"{digits}×10{Raised(exponent)}";
    }

    private static string Raised(int exponent) =>
        string.Concat(
            exponent
                .ToString(CultureInfo.InvariantCulture)
                .Select(letter => letter == '-' ? '⁻' : "⁰¹²³⁴⁵⁶⁷⁸⁹"[letter - '0'])
        );

    private string WithUnit(string number, Shown shown) =>
        shown.Symbol is null ? number : $"{number} {UnitWords.Of(shown.Symbol, Language)}";
}
