using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace Tightcold.Properties.Tables;

/// <summary>
/// Evaluation of degree-5 polynomials in one and two variables, several quantities at a time in the lanes of a vector.
/// Layout: power of the first variable, power of the second, lane; four lanes in one variable, three in two (the
/// fourth lane then computes on whatever follows and is not looked at: a patch a quarter smaller is a quarter less
/// to fetch, and fetching is what the evaluation waits for). Terms are paired (Estrin's scheme), because a lookup is a
/// chain of dependent steps and pairing makes the chain shorter.
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
        return Value(v, v * v, At(ref c, 0), At(ref c, 4), At(ref c, 8), At(ref c, 12), At(ref c, 16), At(ref c, 20));
    }

    /// <summary>Value and derivative in the local coordinate.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<double> Line(ref double c, Vector256<double> v, out Vector256<double> derivative)
    {
        Vector256<double> c1 = At(ref c, 4),
            c2 = At(ref c, 8),
            c3 = At(ref c, 12),
            c4 = At(ref c, 16),
            c5 = At(ref c, 20);
        var square = v * v;
        derivative = Slope(v, square, c1, c2, c3, c4, c5);
        return Value(v, square, At(ref c, 0), c1, c2, c3, c4, c5);
    }

    /// <summary>Value at (x, y).</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<double> Patch(ref double c, double x, double y)
    {
        var v = Vector256.Create(x);
        var w = Vector256.Create(y);
        var ww = w * w;
        return Value(
            v,
            v * v,
            Row(ref c, w, ww),
            Row(ref Unsafe.Add(ref c, RowLength), w, ww),
            Row(ref Unsafe.Add(ref c, 2 * RowLength), w, ww),
            Row(ref Unsafe.Add(ref c, 3 * RowLength), w, ww),
            Row(ref Unsafe.Add(ref c, 4 * RowLength), w, ww),
            Row(ref Unsafe.Add(ref c, 5 * RowLength), w, ww)
        );
    }

    /// <summary>Value at (x, y) with both local derivatives.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<double> Patch(
        ref double c,
        double x,
        double y,
        out Vector256<double> byX,
        out Vector256<double> byY
    )
    {
        var v = Vector256.Create(x);
        var vv = v * v;
        var w = Vector256.Create(y);
        var ww = w * w;
        var r0 = Row(ref c, w, ww, out var d0);
        var r1 = Row(ref Unsafe.Add(ref c, RowLength), w, ww, out var d1);
        var r2 = Row(ref Unsafe.Add(ref c, 2 * RowLength), w, ww, out var d2);
        var r3 = Row(ref Unsafe.Add(ref c, 3 * RowLength), w, ww, out var d3);
        var r4 = Row(ref Unsafe.Add(ref c, 4 * RowLength), w, ww, out var d4);
        var r5 = Row(ref Unsafe.Add(ref c, 5 * RowLength), w, ww, out var d5);
        byX = Slope(v, vv, r1, r2, r3, r4, r5);
        byY = Value(v, vv, d0, d1, d2, d3, d4, d5);
        return Value(v, vv, r0, r1, r2, r3, r4, r5);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> At(ref double c, nuint offset) => Vector256.LoadUnsafe(ref c, offset);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> Row(ref double c, Vector256<double> v, Vector256<double> square) =>
        Value(v, square, At(ref c, 0), At(ref c, 3), At(ref c, 6), At(ref c, 9), At(ref c, 12), At(ref c, 15));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> Row(
        ref double c,
        Vector256<double> v,
        Vector256<double> square,
        out Vector256<double> derivative
    )
    {
        Vector256<double> c1 = At(ref c, 3),
            c2 = At(ref c, 6),
            c3 = At(ref c, 9),
            c4 = At(ref c, 12),
            c5 = At(ref c, 15);
        derivative = Slope(v, square, c1, c2, c3, c4, c5);
        return Value(v, square, At(ref c, 0), c1, c2, c3, c4, c5);
    }

    // (c0 + c1 v) + v^2 ((c2 + c3 v) + v^2 (c4 + c5 v))
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> Value(
        Vector256<double> v,
        Vector256<double> square,
        Vector256<double> c0,
        Vector256<double> c1,
        Vector256<double> c2,
        Vector256<double> c3,
        Vector256<double> c4,
        Vector256<double> c5
    )
    {
        var high = Vector256.FusedMultiplyAdd(c5, v, c4);
        var middle = Vector256.FusedMultiplyAdd(c3, v, c2);
        var low = Vector256.FusedMultiplyAdd(c1, v, c0);
        return Vector256.FusedMultiplyAdd(Vector256.FusedMultiplyAdd(high, square, middle), square, low);
    }

    // (c1 + 2 c2 v) + v^2 ((3 c3 + 4 c4 v) + v^2 5 c5)
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> Slope(
        Vector256<double> v,
        Vector256<double> square,
        Vector256<double> c1,
        Vector256<double> c2,
        Vector256<double> c3,
        Vector256<double> c4,
        Vector256<double> c5
    )
    {
        var low = Vector256.FusedMultiplyAdd(c2 + c2, v, c1);
        var middle = Vector256.FusedMultiplyAdd(c4 * 4, v, c3 * 3);
        return Vector256.FusedMultiplyAdd(Vector256.FusedMultiplyAdd(c5 * 5, square, middle), square, low);
    }
}
