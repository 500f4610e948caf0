using Tightcold.Numerics.Sampling;

namespace Tightcold.SecondWorld.Leaks;

/// <summary>
/// Draws leaks. A car loses a little everywhere (new cars 15 g a year declared, parked cars 0.07 g a day measured) and
/// some have holes: a mixture of three log-normals, seep, leak and gross, of the second world's own choosing.
/// </summary>
public static class LeakMaker
{
    /// <summary>The seep of a sound car, g/yr in all: median 9, spread 2.</summary>
    public static double Seep(SeededChance chance)
    {
        ArgumentNullException.ThrowIfNull(chance);
        return 9 * Math.Exp(0.7 * chance.Normal());
    }

    /// <summary>The rate of a leak worth mending, g/yr.</summary>
    public static double Rate(SeededChance chance)
    {
        ArgumentNullException.ThrowIfNull(chance);
        var kind = chance.Uniform();
        return kind switch
        {
            < 0.35 => 45 * Math.Exp(0.5 * chance.Normal()),
            < 0.8 => 220 * Math.Exp(0.8 * chance.Normal()),
            _ => 2500 * Math.Exp(1.2 * chance.Normal()),
        };
    }

    /// <summary>
    /// The law of a leak: fine ones are pores and long ways, coarse ones holes; one in seven is a seal lip.
    /// </summary>
    public static Leak Of(SeededChance chance, double gramPerYear)
    {
        ArgumentNullException.ThrowIfNull(chance);
        if (chance.Chance(0.15))
            return new(gramPerYear, LeakKind.Lip, chance.Chance(0.6) ? 0.02 : chance.Between(0.1, 0.8));
        var coarse = Math.Clamp(Math.Log10(gramPerYear / 3) / 4, 0, 1);
        var pick = chance.Uniform();
        if (pick < 0.35 * (1 - coarse))
            return new(gramPerYear, LeakKind.Molecular);
        return new(gramPerYear, pick > 1 - 0.6 * coarse ? LeakKind.Orifice : LeakKind.Laminar);
    }
}
