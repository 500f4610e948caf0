using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace Tightcold.Properties.Tables;

/// <summary>
/// Evaluation of degree-5 polynomials in one and two variables, several quantities at a time in the lanes of a vector.
/// Layout: power of the first variable, power of the second, lane; four lanes in one variable, three in two (the
/// fourth lane then computes on whatever follows and is not looked at: a patch a quarter smaller is a quarter less
/// to fetch, and fetching is what the evaluation waits for).
/// </summary>
internal static class CellPolynomial
{
    public const int Lanes = 4;

    /// <summary>Doubles of a polynomial in one variable.</summary>
    public const int LineLength = Lobatto.Count * Lanes;

    public const int PatchLanes = 3;

    /// <summary>Doubles of one row, a power of the first variable, of a polynomial in two variables.</summary>
    public const int RowLength = Lobatto.Count * PatchLanes;

    /// <summary>Doubles of a polynomial in two variables.</summary>
    public const int PatchLength = Lobatto.Count * RowLength;

    /// <summary>Value at x, a local coordinate in [-1, 1].</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<double> Line(ref double c, double x)
    {
        var v = Vector256.Create(x);
        var value = Vector256.LoadUnsafe(ref c, 20);
        value = Vector256.FusedMultiplyAdd(value, v, Vector256.LoadUnsafe(ref c, 16));
        value = Vector256.FusedMultiplyAdd(value, v, Vector256.LoadUnsafe(ref c, 12));
        value = Vector256.FusedMultiplyAdd(value, v, Vector256.LoadUnsafe(ref c, 8));
        value = Vector256.FusedMultiplyAdd(value, v, Vector256.LoadUnsafe(ref c, 4));
        return Vector256.FusedMultiplyAdd(value, v, Vector256.LoadUnsafe(ref c, 0));
    }

    /// <summary>Value and derivative in the local coordinate.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<double> Line(ref double c, Vector256<double> v, out Vector256<double> derivative)
    {
        var value = Vector256.LoadUnsafe(ref c, 20);
        var slope = value;
        value = Vector256.FusedMultiplyAdd(value, v, Vector256.LoadUnsafe(ref c, 16));
        slope = Vector256.FusedMultiplyAdd(slope, v, value);
        value = Vector256.FusedMultiplyAdd(value, v, Vector256.LoadUnsafe(ref c, 12));
        slope = Vector256.FusedMultiplyAdd(slope, v, value);
        value = Vector256.FusedMultiplyAdd(value, v, Vector256.LoadUnsafe(ref c, 8));
        slope = Vector256.FusedMultiplyAdd(slope, v, value);
        value = Vector256.FusedMultiplyAdd(value, v, Vector256.LoadUnsafe(ref c, 4));
        derivative = Vector256.FusedMultiplyAdd(slope, v, value);
        return Vector256.FusedMultiplyAdd(value, v, Vector256.LoadUnsafe(ref c, 0));
    }

    /// <summary>Value at (x, y).</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<double> Patch(ref double c, double x, double y)
    {
        var v = Vector256.Create(x);
        var w = Vector256.Create(y);
        var r5 = Row(ref Unsafe.Add(ref c, 5 * RowLength), w);
        var r4 = Row(ref Unsafe.Add(ref c, 4 * RowLength), w);
        var r3 = Row(ref Unsafe.Add(ref c, 3 * RowLength), w);
        var r2 = Row(ref Unsafe.Add(ref c, 2 * RowLength), w);
        var r1 = Row(ref Unsafe.Add(ref c, RowLength), w);
        var r0 = Row(ref c, w);
        var value = Vector256.FusedMultiplyAdd(r5, v, r4);
        value = Vector256.FusedMultiplyAdd(value, v, r3);
        value = Vector256.FusedMultiplyAdd(value, v, r2);
        value = Vector256.FusedMultiplyAdd(value, v, r1);
        return Vector256.FusedMultiplyAdd(value, v, r0);
    }

    /// <summary>Value at (x, y) with both local derivatives.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<double> Patch(ref double c, double x, double y, out Vector256<double> byX, out Vector256<double> byY)
    {
        var v = Vector256.Create(x);
        var w = Vector256.Create(y);
        var value = Row(ref Unsafe.Add(ref c, 5 * RowLength), w, out var cross);
        var slope = value;
        for (var i = 4; i >= 1; i--)
        {
            var row = Row(ref Unsafe.Add(ref c, i * RowLength), w, out var rowSlope);
            value = Vector256.FusedMultiplyAdd(value, v, row);
            slope = Vector256.FusedMultiplyAdd(slope, v, value);
            cross = Vector256.FusedMultiplyAdd(cross, v, rowSlope);
        }

        var last = Row(ref c, w, out var lastSlope);
        byX = slope;
        byY = Vector256.FusedMultiplyAdd(cross, v, lastSlope);
        return Vector256.FusedMultiplyAdd(value, v, last);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> Row(ref double c, Vector256<double> v)
    {
        var value = Vector256.LoadUnsafe(ref c, 15);
        value = Vector256.FusedMultiplyAdd(value, v, Vector256.LoadUnsafe(ref c, 12));
        value = Vector256.FusedMultiplyAdd(value, v, Vector256.LoadUnsafe(ref c, 9));
        value = Vector256.FusedMultiplyAdd(value, v, Vector256.LoadUnsafe(ref c, 6));
        value = Vector256.FusedMultiplyAdd(value, v, Vector256.LoadUnsafe(ref c, 3));
        return Vector256.FusedMultiplyAdd(value, v, Vector256.LoadUnsafe(ref c, 0));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> Row(ref double c, Vector256<double> v, out Vector256<double> derivative)
    {
        var value = Vector256.LoadUnsafe(ref c, 15);
        var slope = value;
        value = Vector256.FusedMultiplyAdd(value, v, Vector256.LoadUnsafe(ref c, 12));
        slope = Vector256.FusedMultiplyAdd(slope, v, value);
        value = Vector256.FusedMultiplyAdd(value, v, Vector256.LoadUnsafe(ref c, 9));
        slope = Vector256.FusedMultiplyAdd(slope, v, value);
        value = Vector256.FusedMultiplyAdd(value, v, Vector256.LoadUnsafe(ref c, 6));
        slope = Vector256.FusedMultiplyAdd(slope, v, value);
        value = Vector256.FusedMultiplyAdd(value, v, Vector256.LoadUnsafe(ref c, 3));
        derivative = Vector256.FusedMultiplyAdd(slope, v, value);
        return Vector256.FusedMultiplyAdd(value, v, Vector256.LoadUnsafe(ref c, 0));
    }
}
