using System.Runtime.CompilerServices;

namespace Tightcold.Properties.Tables;

/// <summary>
/// Cells of a coordinate q in [2^-depth, 1], two for each doubling, so that they grow finer towards the saturation
/// line at the lower end. The cell and the place in it are read from the bits of q.
/// </summary>
internal static class GradedCells
{
    private const int ExponentBias = 1023;

    public static int Count(int depth) => 2 * depth;

    public static double Smallest(int depth) => Math.ScaleB(1, -depth);

    /// <summary>Lower limit of a cell.</summary>
    public static double LowerOf(int depth, int cell) => Math.ScaleB(1 + (0.5 * (cell & 1)), (cell >> 1) - depth);

    /// <summary>Cell of q, local coordinate in [-1, 1], and d(local)/dq.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static int Locate(double q, int depth, out double local, out double scale)
    {
        var bits = BitConverter.DoubleToInt64Bits(q);
        var key = (int)(bits >> 51);
        var cell = key - ((ExponentBias - depth) << 1);
        // Exactly q = 1 belongs to the last cell.
        if (cell >= 2 * depth)
        {
            cell = (2 * depth) - 1;
            key--;
        }

        // A cell has the width 2^(e-1): 2/width = 2^(2-e).
        var lower = BitConverter.Int64BitsToDouble((long)key << 51);
        var exponent = (key >> 1) - ExponentBias;
        scale = BitConverter.Int64BitsToDouble((long)(ExponentBias + 2 - exponent) << 52);
        local = ((q - lower) * scale) - 1;
        return cell;
    }
}
