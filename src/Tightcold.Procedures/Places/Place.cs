using System.Collections.Immutable;

namespace Tightcold.Procedures.Places;

/// <summary>A country, or a region of one, by its code in ISO 3166.</summary>
/// <param name="Code">ISO 3166-1 alpha-2 such as DE, or ISO 3166-2 such as AU-NSW.</param>
/// <param name="Three">ISO 3166-1 alpha-3; empty for a region.</param>
/// <param name="Name">In English.</param>
/// <param name="OwnNames">In the languages of the place.</param>
/// <param name="AlsoCalled">Other whole names that people write.</param>
/// <param name="Country">The country of a region; null for a country.</param>
public sealed record Place(
    string Code,
    string Three,
    string Name,
    ImmutableArray<string> OwnNames,
    ImmutableArray<string> AlsoCalled,
    Place? Country
)
{
    public bool IsRegion => Country is not null;

    /// <summary>What a form offers and keeps: the name, and the code that settles it.</summary>
    public string Label => Country is { } country ? $"{Name}, {country.Name} ({Code})" : $"{Name} ({Code})";

    /// <summary>All names, the English one first.</summary>
    public IEnumerable<string> Names => [Name, .. OwnNames, .. AlsoCalled];

    /// <summary>The part of a region's code after the hyphen: what people write behind a town.</summary>
    public string Suffix => IsRegion ? Code[(Code.IndexOf('-', StringComparison.Ordinal) + 1)..] : Code;

    public override string ToString() => Label;
}
