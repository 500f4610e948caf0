using System.Globalization;

namespace Tightcold.Injected;

/// <summary>One place of a fault.</summary>
/// <param name="Find">Stands once in the file.</param>
/// <param name="Put">Another expression for it; or, with <c>{on}</c> in it, the whole text in its place, where <c>{on}</c> is
/// the switch.</param>
internal sealed record Change(string Find, string Put)
{
    private const string Switch = "{on}";

    /// <summary>What stands in the copy: both, chosen by the switch.</summary>
    public string Both(int fault)
    {
        var on = string.Create(CultureInfo.InvariantCulture, $"Tightcold.Injected.Is({fault})");
        return Put.Contains(Switch, StringComparison.Ordinal)
            ? Put.Replace(Switch, on, StringComparison.Ordinal)
            : $"({on} ? ({Put}) : ({Find}))";
    }
}
