using System.Runtime.CompilerServices;

namespace Tightcold.Numerics.Smoothing;

/// <summary>Corners rounded off, so that a small step of an input is a small step of the answer.</summary>
public static class Smooth
{
    /// <summary>The larger of two, rounded within <paramref name="width"/> of where they cross; never below
    /// either.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static double Max(double a, double b, double width)
    {
        var d = a - b;
        return 0.5 * (a + b + Math.Sqrt((d * d) + (width * width)));
    }

    /// <summary>The smaller of two, rounded; never above either.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static double Min(double a, double b, double width)
    {
        var d = a - b;
        return 0.5 * (a + b - Math.Sqrt((d * d) + (width * width)));
    }

    /// <summary>0 below 0, 1 above 1, 3u2 - 2u3 between.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static double Step(double u)
    {
        var c =
            u < 0 ? 0
            : u > 1 ? 1
            : u;
        return c * c * (3 - (2 * c));
    }
}
