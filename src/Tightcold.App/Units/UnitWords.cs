using System.Collections.Immutable;
using Tightcold.Quantities;

namespace Tightcold.App.Units;

/// <summary>Units that are words: the symbol is what is stored and parsed, this is what is read.</summary>
public static class UnitWords
{
    internal const string Where = "unit";

    /// <summary>Those that another language writes otherwise, and the words between two numbers.</summary>
    [Said(Where)]
    internal static readonly ImmutableArray<string> All =
    [
        "bar gauge",
        "bar abs",
        "kPa gauge",
        "mbar gauge",
        "MPa gauge",
        "Pa gauge",
        "kPa abs",
        "hPa",
        "micron",
        "micron/min",
        "inHg vacuum",
        "days",
        "h",
        "min",
        "s",
        "g/yr",
        "kg/yr",
        "oz/yr",
        "lb/yr",
        "{0} to {1}",
    ];

    public static string Of(string symbol, ITongue tongue)
    {
        ArgumentNullException.ThrowIfNull(tongue);
        return tongue.Say(symbol, Where);
    }
}
