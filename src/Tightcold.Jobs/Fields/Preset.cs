using System.Collections.Immutable;
using Tightcold.Quantities;

namespace Tightcold.Jobs.Fields;

/// <summary>What usually goes together, as one tap: it stands in the fields afterwards, to be seen and changed. It says
/// how something is or was set up; never what was read.</summary>
/// <param name="Words">What is taken, in the words of the button.</param>
/// <param name="Sets">Fields and what goes into them, with its unit.</param>
public sealed record Preset([Said] string Words, ImmutableArray<(string Field, string Text)> Sets)
{
    /// <summary>The heading that stands over it; null: above the form.</summary>
    [Said]
    public string? Heading { get; init; }
}
