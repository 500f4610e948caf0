using System.Collections.Frozen;
using System.Globalization;

namespace Tightcold.Loop.Designs;

/// <summary>
/// What sound cars are like, learnt from makers' printed charts (docs/physics/loop.md, the population; redone by
/// <c>tools/Tightcold.Published fit</c>). Levels shift the ordinary design of <see cref="LoopDesign"/>, spreads are
/// what is left from car to car.
/// </summary>
public sealed class Population
{
    private readonly FrozenDictionary<string, Trait> traits;

    private Population(IEnumerable<KeyValuePair<string, Trait>> traits) =>
        this.traits = traits.ToFrozenDictionary(StringComparer.Ordinal);

    /// <summary>The one that is shipped.</summary>
    public static Population Shipped { get; } = Read();

    public Trait this[string trait] => traits[trait];

    /// <summary>Another level and spread of some traits: what a fit tries.</summary>
    public Population With(IEnumerable<KeyValuePair<string, Trait>> changed)
    {
        ArgumentNullException.ThrowIfNull(changed);
        var all = traits.ToDictionary(StringComparer.Ordinal);
        foreach (var (name, trait) in changed)
            all[name] = trait;
        return new(all);
    }

    /// <summary>Lines of <c>trait;level;spread;unit</c>; unit x is a factor.</summary>
    public static Population Parse(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var list = new List<KeyValuePair<string, Trait>>();
        foreach (var line in text.Split('\n', StringSplitOptions.RemoveEmptyEntries))
        {
            if (line[0] == '#' || line.StartsWith("trait;", StringComparison.Ordinal))
                continue;
            var f = line.Split(';');
            if (
                f.Length < 4
                || !double.TryParse(f[1], CultureInfo.InvariantCulture, out var level)
                || !double.TryParse(f[2], CultureInfo.InvariantCulture, out var spread)
            )
                throw new FormatException($"population: “{line}” is not trait;level;spread;unit.");
            list.Add(new(f[0], new(level, spread, f[3].Trim() is "x" or "m/s")));
        }

        return new(list);
    }

    private static Population Read()
    {
        using var stream = typeof(Population).Assembly.GetManifestResourceStream("population.csv")
            ?? throw new FormatException("The population of cars is missing from the program.");
        using var reader = new StreamReader(stream);
        return Parse(reader.ReadToEnd());
    }
}
