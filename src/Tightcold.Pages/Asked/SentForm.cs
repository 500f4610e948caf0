using System.Collections.Immutable;

namespace Tightcold.Pages.Asked;

/// <summary>A form that was sent and could not be kept, to be sent again as it was: under the same id, so that it
/// counts once, and with the time at which it was sent first.</summary>
/// <param name="Action">Where it goes.</param>
/// <param name="Fields">Everything in it but its token, which is made anew.</param>
/// <param name="Files">Names of files that came with it; a page cannot hand those back.</param>
public sealed record SentForm(
    string Action,
    ImmutableArray<(string Name, string Value)> Fields,
    ImmutableArray<string> Files
)
{
    /// <summary>The field that says when it was sent first, by this machine's clock, in milliseconds.</summary>
    public const string First = "first-sent";

    /// <summary>The field that says how many seconds ago that was.</summary>
    public const string Ago = "ago";

    /// <summary>What a person typed, as the fields name it, with its unit behind it.</summary>
    public IEnumerable<(string Name, string Value)> Typed =>
        Fields
            .Where(one => one.Name.StartsWith("f.", StringComparison.Ordinal) && one.Value.Length > 0)
            .Select(one => (one.Name[2..].Replace('-', ' '), $"{one.Value} {UnitOf(one.Name[2..])}".Trim()));

    private string? UnitOf(string name) => Fields.FirstOrDefault(one => one.Name == "u." + name).Value;
}
