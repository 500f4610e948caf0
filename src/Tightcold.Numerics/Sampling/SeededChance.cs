namespace Tightcold.Numerics.Sampling;

/// <summary>
/// Random numbers that are the same on every machine for the same seed. One stream belongs to one caller.
/// </summary>
public class SeededChance
{
    private readonly bool shifts;
    private ulong state;
    private double spare;
    private bool hasSpare;

    /// <summary>The 64-bit mixing generator [steele2014] of Steele, Lea and Flood, Fast splittable pseudorandom number
    /// generators, OOPSLA 2014.</summary>
    public SeededChance(ulong seed) => state = seed;

    /// <summary>With <paramref name="shifts"/> the generator xorshift64* [vigna2016] of Vigna (2016), ACM Trans. Math.
    /// Softw. 42, 30: another sequence, kept for the answers that were always drawn from it.</summary>
    protected SeededChance(ulong seed, bool shifts)
    {
        this.shifts = shifts;
        // Mixed first, so that neighbouring seeds start far apart.
        state = shifts ? Mixed(seed + Step) | 1 : seed;
    }

    /// <summary>What the mixing generator adds to its state from one number to the next.</summary>
    public const ulong Step = 0x9E3779B97F4A7C15;

    /// <summary>The mixing generator's last step: neighbouring numbers come out far apart.</summary>
    public static ulong Mixed(ulong z)
    {
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
        return z ^ (z >> 31);
    }

    /// <summary>The upper 53 bits of a number as a share in the open interval (0, 1).</summary>
    public static double Share(ulong bits) => ((bits >> 11) + 0.5) * (1.0 / 9007199254740992.0);

    /// <summary>Uniform in the open interval (0, 1).</summary>
    public double Uniform()
    {
        if (!shifts)
            return Share(Mixed(state += Step));
        state ^= state >> 12;
        state ^= state << 25;
        state ^= state >> 27;
        // The upper 52 bits, as ever.
        return (((state * 0x2545F4914F6CDD1D) >> 12) + 0.5) / (1UL << 52);
    }

    /// <summary>Uniform between two ends.</summary>
    public double Between(double low, double high) => low + (high - low) * Uniform();

    /// <summary>Uniform in the logarithm between two positive ends.</summary>
    public double LogBetween(double low, double high) => low * Math.Exp(Math.Log(high / low) * Uniform());

    /// <summary>A whole number from 0 to below <paramref name="count"/>.</summary>
    public int Below(int count) => (int)(Uniform() * count);

    public bool Chance(double probability) => Uniform() < probability;

    /// <summary>Standard normal, by the polar method of Marsaglia and Bray (1964), SIAM Rev. 6, 260.</summary>
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
