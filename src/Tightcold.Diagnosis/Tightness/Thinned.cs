namespace Tightcold.Diagnosis.Tightness;

/// <summary>A logger's readings a second apart repeat each other: beyond this many, evenly chosen ones say the
/// same.</summary>
internal static class Thinned
{
    public const int Most = 24,
        AtAGlance = 8;

    public static T[] Of<T>(ReadOnlySpan<T> readings, int most)
    {
        if (readings.Length <= most)
            return readings.ToArray();
        var thinned = new T[most];
        for (var i = 0; i < most; i++)
            thinned[i] = readings[(int)Math.Round(i * (readings.Length - 1.0) / (most - 1))];
        return thinned;
    }
}
