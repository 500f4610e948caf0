using System.Collections.Frozen;
using System.Diagnostics.CodeAnalysis;
using Tightcold.Properties.Data;

namespace Tightcold.Properties;

/// <summary>
/// The fluids this engine knows: one for each embedded file. A fluid is read the first time it is asked for and
/// kept; it is immutable, so sharing it between threads is safe.
/// </summary>
public static class FluidCatalog
{
    private const string Prefix = "Fluids/";
    private const string Suffix = ".json";

    // The order people expect: refrigerants in use first, then the old one, then the others.
    private static readonly string[] PreferredOrder =
    [
        "R134a",
        "R1234yf",
        "R152a",
        "R744",
        "R12",
        "Water",
        "Nitrogen",
        "Air",
    ];

    private static readonly FrozenDictionary<string, Lazy<Fluid>> Fluids = typeof(FluidCatalog)
        .Assembly.GetManifestResourceNames()
        .Where(resource =>
            resource.StartsWith(Prefix, StringComparison.Ordinal) && resource.EndsWith(Suffix, StringComparison.Ordinal)
        )
        .ToFrozenDictionary(
            resource => Normalise(resource[Prefix.Length..^Suffix.Length]),
            resource => new Lazy<Fluid>(() => Load(resource))
        );

    /// <summary>Names of all fluids, as the fluid files spell them.</summary>
    public static IReadOnlyList<string> Names { get; } =
    [
        .. typeof(FluidCatalog)
            .Assembly.GetManifestResourceNames()
            .Where(resource =>
                resource.StartsWith(Prefix, StringComparison.Ordinal)
                && resource.EndsWith(Suffix, StringComparison.Ordinal)
            )
            .Select(resource => resource[Prefix.Length..^Suffix.Length])
            .OrderBy(name => Array.IndexOf(PreferredOrder, name) is var place && place >= 0 ? place : int.MaxValue)
            .ThenBy(name => name, StringComparer.Ordinal),
    ];

    /// <summary>The fluid of that name; capitals, dashes and spaces do not matter ("R-134a").</summary>
    /// <param name="name">Name of the fluid.</param>
    /// <exception cref="ArgumentException">No such fluid; the message lists those there are.</exception>
    public static Fluid Get(string name) =>
        TryGet(name, out var fluid)
            ? fluid
            : throw new ArgumentException($"No fluid named '{name}'. Known: {string.Join(", ", Names)}.", nameof(name));

    /// <summary>The name of a fluid as its file spells it, without reading the file.</summary>
    /// <param name="name">Name as for <see cref="Get"/>.</param>
    /// <exception cref="ArgumentException">No such fluid; the message lists those there are.</exception>
    public static string NameOf(string name) =>
        Names.FirstOrDefault(known => name is not null && Normalise(known) == Normalise(name)) ?? Get(name).Name;

    /// <summary>As <see cref="Get"/>, without an exception for an unknown name.</summary>
    public static bool TryGet(string? name, [NotNullWhen(true)] out Fluid? fluid)
    {
        fluid = name is not null && Fluids.TryGetValue(Normalise(name), out var lazy) ? lazy.Value : null;
        return fluid is not null;
    }

    /// <summary>The fast layer of the fluid of that name; made at the first call and kept.</summary>
    /// <param name="name">Name as for <see cref="Get"/>.</param>
    /// <exception cref="ArgumentException">No such fluid.</exception>
    public static FastFluid GetFast(string name) => Get(name).Fast;

    private static string Normalise(string name) =>
        string.Concat(name.Where(char.IsAsciiLetterOrDigit)).ToUpperInvariant();

    private static Fluid Load(string resource)
    {
        using var stream = typeof(FluidCatalog).Assembly.GetManifestResourceStream(resource)
            ?? throw new FormatException($"The fluid file '{resource}' is missing from the program.");
        return new Fluid(FluidFileReader.Read(stream));
    }
}
