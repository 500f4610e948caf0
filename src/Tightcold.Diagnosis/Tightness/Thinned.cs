namespace Tightcold.Diagnosis.Tightness;

/// <summary>A logger's readings a second apart repeat each other: beyond this many, evenly chosen ones say the
/// same.</summary>
internal static class Thinned
{
    private const int Most = 24;

    public static T[] Of<T>(ReadOnlySpan<T> readings)
    {
        if (readings.Length <= Most) return readings.ToArray();
        var thinned = new T[Most];
        for (var i = 0; i < Most; i++) thinned[i] = readings[(int)Math.Round(i * (readings.Length - 1.0) / (Most - 1))];
        return thinned;
    }
}
