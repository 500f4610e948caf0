using System.Runtime.CompilerServices;

namespace Tightcold.Properties.Tables;

/// <summary>
/// Cells between ascending limits, found from the leading bits of a positive number: a directory with 32 entries for
/// each doubling says where to begin, a step or two finishes. Immutable.
/// </summary>
internal sealed class CellAxis
{
    private const int DirectoryShift = 52 - 5;

    private readonly double[] _limits;
    private readonly Cell[] _cells;
    private readonly ushort[] _directory;
    private readonly int _firstKey;

    public CellAxis(double[] limits)
    {
        _limits = limits;
        Count = limits.Length - 1;
        // No number lies beyond the last cell.
        _cells =
        [
            .. Enumerable
                .Range(0, Count)
                .Select(i => new Cell(
                    i == Count - 1 ? double.PositiveInfinity : limits[i + 1],
                    0.5 * (limits[i] + limits[i + 1]),
                    2 / (limits[i + 1] - limits[i])
                )),
        ];
        _firstKey = Key(limits[0]);
        var lastKey = Key(limits[^1]);
        _directory = new ushort[lastKey - _firstKey + 1];
        for (var i = 0; i < _directory.Length; i++)
        {
            var start = BitConverter.Int64BitsToDouble((long)(_firstKey + i) << DirectoryShift);
            var cell = 0;
            while (cell < Count - 1 && limits[cell + 1] <= start)
                cell++;
            _directory[i] = (ushort)cell;
        }
    }

    public int Count { get; }

    public double Lower => _limits[0];

    public double Upper => _limits[^1];

    public double LowerOf(int cell) => _limits[cell];

    public double UpperOf(int cell) => _limits[cell + 1];

    /// <summary>d(local)/dx of a cell.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public double Scale(int cell) => _cells[cell].InverseHalf;

    /// <summary>The cell of x, which must lie between the outer limits, and the local coordinate in [-1, 1].</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public int Locate(double x, out double local)
    {
        int cell = _directory[Key(x) - _firstKey];
        ref readonly var found = ref _cells[cell];
        while (x >= found.Upper)
            found = ref _cells[++cell];
        local = (x - found.Centre) * found.InverseHalf;
        return cell;
    }

    /// <summary>Actual value at a local coordinate.</summary>
    public double At(int cell, double local) =>
        local switch
        {
            -1 => _limits[cell],
            1 => _limits[cell + 1],
            _ => _cells[cell].Centre + (local / _cells[cell].InverseHalf),
        };

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static int Key(double x) => (int)(BitConverter.DoubleToInt64Bits(x) >> DirectoryShift);

    private readonly record struct Cell(double Upper, double Centre, double InverseHalf);
}
