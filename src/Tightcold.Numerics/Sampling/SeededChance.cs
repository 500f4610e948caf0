namespace Tightcold.Numerics.Sampling;

/// <summary>
/// Random numbers that are the same on every machine for the same seed: the 64-bit mixing generator [steele2014] of
/// Steele, Lea and Flood, Fast splittable pseudorandom number generators, OOPSLA 2014. One stream belongs to one
/// caller.
/// </summary>
public sealed class SeededChance(ulong seed)
{
    private ulong state = seed;
    private double spare;
    private bool hasSpare;

    private ulong Next()
    {
        state += 0x9E3779B97F4A7C15;
        var z = state;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
        return z ^ (z >> 31);
    }

    /// <summary>Uniform in the open interval (0, 1).</summary>
    public double Uniform() => ((Next() >> 11) + 0.5) * (1.0 / 9007199254740992.0);

    /// <summary>Uniform between two ends.</summary>
    public double Between(double low, double high) => low + (high - low) * Uniform();

    /// <summary>Uniform in the logarithm between two positive ends.</summary>
    public double LogBetween(double low, double high) => low * Math.Exp(Math.Log(high / low) * Uniform());

    /// <summary>A whole number from 0 to below <paramref name="count"/>.</summary>
    public int Below(int count) => (int)(Uniform() * count);

    public bool Chance(double probability) => Uniform() < probability;

    /// <summary>Standard normal, by the polar method of Marsaglia and Bray (1964).</summary>
    public double Normal()
    {
        if (hasSpare)
        {
            hasSpare = false;
            return spare;
        }
        while (true)
        {
            double u = 2 * Uniform() - 1,
                v = 2 * Uniform() - 1,
                s = u * u + v * v;
            if (s is >= 1 or 0)
                continue;
            var scale = Math.Sqrt(-2 * Math.Log(s) / s);
            spare = v * scale;
            hasSpare = true;
            return u * scale;
        }
    }
}
