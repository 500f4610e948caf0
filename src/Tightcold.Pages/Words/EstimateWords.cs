using Tightcold.Jobs.Fields;
using Tightcold.Quantities;
using Tightcold.Tongues;

namespace Tightcold.Pages.Words;

/// <summary>An estimate as a large number and its spread; a bound says that it is one.</summary>
public static class EstimateWords
{
    private static readonly string[] LowSide = ["low-", "suction-", "superheat"];
    private static readonly string[] HighSide = ["high-", "liquid-line", "discharge-", "subcooling"];

    public static string Big(Estimate estimate, IMeasureFormat units)
    {
        string One(double si) => Whole(units.Format(new Measure(estimate.Kind, si)));
        return estimate switch
        {
            { Median: { } median, Low: { } low, High: { } high } => Say.It(
                $"about {Whole(Pair(estimate, median, low, high, units).Value)}"
            ),
            { Median: { } median } => Say.It($"about {One(median)}"),
            { Low: { } low, High: null } => Say.It($"at least {One(low)}"),
            { Low: null, High: { } high } => Say.It($"at most {One(high)}"),
            { Low: { } low, High: { } high } => Whole(
                units.Format(new Measure(estimate.Kind, low), new Measure(estimate.Kind, high))
            ),
            _ => Say.It("not known"),
        };
    }

    /// <summary>The interval with how sure it is, and where the number comes from.</summary>
    public static string Spread(Estimate estimate, IMeasureFormat units)
    {
        var origin = Origin(estimate.Origin);
        var sure = Percent(estimate.Level);
        if (estimate is { Median: not null } && estimate.Low == estimate.High)
            return origin;
        return estimate is { Median: { } median, Low: { } low, High: { } high }
            ? Say.It($"{Whole(Pair(estimate, median, low, high, units).Range)}, {sure} sure, {origin}")
            : Say.It($"{sure} sure, {origin}");
    }

    /// <summary>As <see cref="Spread"/> but without what the card's foot says once for all: 90 % sure,
    /// computed.</summary>
    public static string ShortSpread(Estimate estimate, IMeasureFormat units)
    {
        var parts = new List<string>();
        if (estimate is { Median: { } median, Low: { } low, High: { } high } && low < high)
            parts.Add(Whole(Pair(estimate, median, low, high, units).Range));
        if (Math.Abs(estimate.Level - CardLevel) > 1e-9)
            parts.Add(Say.It($"{Percent(estimate.Level)} sure"));
        if (estimate.Origin != EstimateOrigin.Computed)
            parts.Add(Origin(estimate.Origin));
        return string.Join(", ", parts);
    }

    private static (string Value, string Range) Pair(
        Estimate estimate,
        double median,
        double low,
        double high,
        IMeasureFormat units
    ) =>
        units.Format(
            new Measure(estimate.Kind, median),
            new Measure(estimate.Kind, low),
            new Measure(estimate.Kind, high)
        );

    private static string Percent(double level) => level.ToString("0 %", Say.Tongue.Culture);

    /// <summary>A number and its unit, or a range, that no line break tears apart.</summary>
    private static string Whole(string range) => range.Replace(' ', '\u00a0');

    /// <summary>The level that the card does not repeat.</summary>
    private const double CardLevel = 0.90;

    public static string Origin(EstimateOrigin origin) =>
        Say.It(
            origin switch
            {
                EstimateOrigin.Measured => "measured",
                EstimateOrigin.Computed => "computed",
                EstimateOrigin.Modelled => "from a model",
                _ => "assumed",
            }
        );

    /// <summary>Which side of the circuit a number belongs to, as a class name, or null.</summary>
    public static string? Side(string key) =>
        LowSide.Any(word => key.StartsWith(word, StringComparison.Ordinal)) ? FieldNames.LowSide
        : HighSide.Any(word => key.StartsWith(word, StringComparison.Ordinal)) ? FieldNames.HighSide
        : null;
}
