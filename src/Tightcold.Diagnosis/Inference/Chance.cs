namespace Tightcold.Diagnosis.Inference;

/// <summary>A small repeatable generator (xorshift64* of Vigna 2016, ACM Trans. Math. Softw. 42, 30): the same seed
/// gives the same numbers on every machine.</summary>
public sealed class Chance
{
    private ulong state;
    private double spare;
    private bool hasSpare;

    public Chance(ulong seed)
    {
        // Splitmix64's last step, so that neighbouring seeds start far apart.
        var x = seed + 0x9E3779B97F4A7C15UL;
        x = (x ^ (x >> 30)) * 0xBF58476D1CE4E5B9UL;
        x = (x ^ (x >> 27)) * 0x94D049BB133111EBUL;
        state = (x ^ (x >> 31)) | 1;
    }

    /// <summary>Above 0 and below 1.</summary>
    public double Uniform()
    {
        state ^= state >> 12;
        state ^= state << 25;
        state ^= state >> 27;
        return (((state * 0x2545F4914F6CDD1DUL) >> 12) + 0.5) / (1UL << 52);
    }

    /// <summary>Standard normal, by the polar method of Marsaglia and Bray (1964), SIAM Rev. 6, 260.</summary>
    public double Normal()
    {
        if (hasSpare)
        {
            hasSpare = false;
            return spare;
        }

        double u,
            v,
            s;
        do
        {
            u = (2 * Uniform()) - 1;
            v = (2 * Uniform()) - 1;
            s = (u * u) + (v * v);
        } while (s >= 1 || s == 0);
        var scale = Math.Sqrt(-2 * Math.Log(s) / s);
        spare = v * scale;
        hasSpare = true;
        return u * scale;
    }
}
