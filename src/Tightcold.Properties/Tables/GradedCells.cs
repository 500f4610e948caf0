using System.Runtime.CompilerServices;

namespace Tightcold.Properties.Tables;

/// <summary>
/// Cells of a coordinate q in [2^-depth, 1], four for each doubling, so that they grow finer towards the saturation
/// line at the lower end. The cell and the place in it are read from the bits of q.
/// </summary>
internal static class GradedCells
{
    private const int ExponentBias = 1023;

    public static int Count(int depth) => 4 * depth;

    public static double Smallest(int depth) => Math.ScaleB(1, -depth);

    /// <summary>Lower limit of a cell.</summary>
    public static double LowerOf(int depth, int cell) => Math.ScaleB(1 + (0.25 * (cell & 3)), (cell >> 2) - depth);

    /// <summary>Cell of q, local coordinate in [-1, 1], and d(local)/dq.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static int Locate(double q, int depth, out double local, out double scale)
    {
        var bits = BitConverter.DoubleToInt64Bits(q);
        var key = (int)(bits >> 50);
        var cell = key - ((ExponentBias - depth) << 2);
        // Exactly q = 1 belongs to the last cell.
        if (cell >= 4 * depth)
        {
            cell = (4 * depth) - 1;
            key--;
        }

        // A cell has the width 2^(e-2): 2/width = 2^(3-e).
        var lower = BitConverter.Int64BitsToDouble((long)key << 50);
        var exponent = (key >> 2) - ExponentBias;
        scale = BitConverter.Int64BitsToDouble((long)(ExponentBias + 3 - exponent) << 52);
        local = ((q - lower) * scale) - 1;
        return cell;
    }
}
