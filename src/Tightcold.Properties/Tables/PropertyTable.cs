using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using Tightcold.Properties.Helmholtz;

namespace Tightcold.Properties.Tables;

/// <summary>
/// States over pressure and one more coordinate z (enthalpy, entropy or temperature). Along each isobar z is
/// counted from the saturation line, 0 there and 1 at the end of the table, so no cell ever straddles the line;
/// patches of degree 5 in both directions, graded towards it. Immutable.
/// </summary>
/// <remarks>
/// Lanes of a patch: temperature (enthalpy where z is temperature), specific volume in the liquid or p v in the gas,
/// entropy (enthalpy where z is entropy). Lanes of the boundary: z of saturated liquid, saturated vapour, coldest
/// liquid, hottest gas.
/// </remarks>
internal sealed class PropertyTable
{
    private readonly TableInput _input;
    private readonly CellAxis _axis;
    private readonly PressureRegime[] _regimes;
    private readonly double[] _boundary;
    private readonly double[] _patches;
    private readonly int[] _liquidStart;
    private readonly int[] _gasStart;
    private readonly byte[] _depth;

    public PropertyTable(TableGeometry geometry, TableInput input)
    {
        _input = input;
        _axis = geometry.Axis;
        _regimes = geometry.Regimes;
        _boundary = new double[_axis.Count * CellPolynomial.LineLength];
        _liquidStart = new int[_axis.Count];
        _gasStart = new int[_axis.Count];
        _depth = new byte[_axis.Count];
        var length = 0;
        for (var cell = 0; cell < _axis.Count; cell++)
        {
            if (_regimes[cell] == PressureRegime.Critical)
                continue;
            _depth[cell] = (byte)geometry.Depth(cell, input);
            var side = GradedCells.Count(_depth[cell]) * CellPolynomial.PatchLength;
            _gasStart[cell] = length;
            length += side;
            _liquidStart[cell] = length;
            if (_regimes[cell] != PressureRegime.GasOnly)
                length += side;
        }

        // One more than the patches: the last row's vector load reaches one past it.
        _patches = new double[length + 1];
        // Each cell for itself, so on as many cores as there are; the figures do not hang on their order.
        Parallel.For(0, _axis.Count, cell =>
        {
            if (_regimes[cell] != PressureRegime.Critical)
                Fill(geometry, cell);
        });
    }

    /// <summary>Bytes of the table.</summary>
    public int SizeBytes => (_patches.Length + _boundary.Length) * sizeof(double);

    /// <summary>z of saturated liquid, saturated vapour, coldest liquid and hottest gas on an isobar, and their slopes
    /// in p.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public Vector256<double> Boundary(int cell, double local, out Vector256<double> slope)
    {
        ref var start = ref Unsafe.Add(
            ref MemoryMarshal.GetArrayDataReference(_boundary),
            cell * CellPolynomial.LineLength
        );
        return CellPolynomial.Line(ref start, Vector256.Create(local), out slope);
    }

    /// <inheritdoc cref="Boundary(int, double, out Vector256{double})"/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public Vector256<double> Boundary(int cell, double local)
    {
        ref var start = ref Unsafe.Add(
            ref MemoryMarshal.GetArrayDataReference(_boundary),
            cell * CellPolynomial.LineLength
        );
        return CellPolynomial.Line(ref start, local);
    }

    /// <summary>Lanes at a share of the way from the edge (0) to the end of the table (1).</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public Vector256<double> Evaluate(int cell, double local, bool liquid, double share)
    {
        ref var patch = ref Patch(cell, liquid, share, out var place, out _);
        return CellPolynomial.Patch(ref patch, local, place);
    }

    /// <summary>As <see cref="Evaluate(int, double, bool, double)"/>, with derivatives in the local pressure coordinate
    /// and in the share.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public Vector256<double> Evaluate(
        int cell,
        double local,
        bool liquid,
        double share,
        out Vector256<double> byLocal,
        out Vector256<double> byShare
    )
    {
        ref var patch = ref Patch(cell, liquid, share, out var place, out var scale);
        var value = CellPolynomial.Patch(ref patch, local, place, out byLocal, out var byPlace);
        byShare = byPlace * scale;
        return value;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private ref double Patch(int cell, bool liquid, double share, out double place, out double scale)
    {
        int depth = _depth[cell];
        var smallest = BitConverter.Int64BitsToDouble((long)(1023 - depth) << 52);
        var index = GradedCells.Locate(smallest + ((1 - smallest) * share), depth, out place, out scale);
        scale *= 1 - smallest;
        var start = liquid ? _liquidStart[cell] : _gasStart[cell];
        return ref Unsafe.Add(
            ref MemoryMarshal.GetArrayDataReference(_patches),
            start + (index * CellPolynomial.PatchLength)
        );
    }

    private void Fill(TableGeometry geometry, int cell)
    {
        var ends = geometry.Ends[cell];
        Span<double> line = stackalloc double[Lobatto.Count];
        for (var lane = 0; lane < CellPolynomial.Lanes; lane++)
        {
            for (var i = 0; i < Lobatto.Count; i++)
            {
                line[i] = lane switch
                {
                    0 => Coordinate(ends[i].LiquidEdge),
                    1 => Coordinate(ends[i].GasEdge),
                    2 => Coordinate(ends[i].LiquidOuter),
                    _ => Coordinate(ends[i].GasOuter),
                };
            }

            StoreLine(line, _boundary.AsSpan(cell * CellPolynomial.LineLength, CellPolynomial.LineLength), lane);
        }

        FillSide(geometry, cell, liquid: false, _gasStart[cell]);
        if (_regimes[cell] != PressureRegime.GasOnly)
            FillSide(geometry, cell, liquid: true, _liquidStart[cell]);
    }

    private void FillSide(TableGeometry geometry, int cell, bool liquid, int start)
    {
        int depth = _depth[cell];
        var smallest = GradedCells.Smallest(depth);
        var cells = GradedCells.Count(depth);
        var nodes = (cells * (Lobatto.Count - 1)) + 1;
        var samples = new double[Lobatto.Count, nodes, CellPolynomial.PatchLanes];
        for (var i = 0; i < Lobatto.Count; i++)
        {
            var pressure = _axis.At(cell, Lobatto.Points[i]);
            var ends = geometry.Ends[cell][i];
            var edge = liquid ? ends.LiquidEdge : ends.GasEdge;
            double zEdge = Coordinate(edge),
                zOuter = Coordinate(liquid ? ends.LiquidOuter : ends.GasOuter);
            var point = edge;
            var track = new NodeTrack();
            for (var node = 0; node < nodes; node++)
            {
                var z = zEdge + ((NodeAt(depth, node) - smallest) / (1 - smallest) * (zOuter - zEdge));
                if (node == nodes - 1)
                {
                    point = liquid ? ends.LiquidOuter : ends.GasOuter;
                }
                else if (node > 0)
                {
                    var (temperature, delta) = track.Predict(z);
                    point = geometry.Solver.Step(temperature, delta, pressure, _input, z);
                }

                track.Add(z, point.TemperatureK, point.Delta);

                samples[i, node, 0] = _input == TableInput.Temperature ? point.EnthalpyJPerKg : point.TemperatureK;
                samples[i, node, 1] = liquid ? 1 / point.DensityKgPerM3 : pressure / point.DensityKgPerM3;
                samples[i, node, 2] = _input == TableInput.Entropy ? point.EnthalpyJPerKg : point.EntropyJPerKgK;
            }
        }

        Span<double> values = stackalloc double[Lobatto.Count];
        Span<double> coefficients = stackalloc double[Lobatto.Count];
        var half = new double[Lobatto.Count, Lobatto.Count];
        for (var c = 0; c < cells; c++)
        {
            var patch = _patches.AsSpan(start + (c * CellPolynomial.PatchLength), CellPolynomial.PatchLength);
            for (var lane = 0; lane < CellPolynomial.PatchLanes; lane++)
            {
                for (var i = 0; i < Lobatto.Count; i++)
                {
                    for (var j = 0; j < Lobatto.Count; j++)
                        values[j] = samples[i, (c * (Lobatto.Count - 1)) + j, lane];
                    Lobatto.Coefficients(values, coefficients);
                    for (var j = 0; j < Lobatto.Count; j++)
                        half[i, j] = coefficients[j];
                }

                for (var j = 0; j < Lobatto.Count; j++)
                {
                    for (var i = 0; i < Lobatto.Count; i++)
                        values[i] = half[i, j];
                    Lobatto.Coefficients(values, coefficients);
                    for (var i = 0; i < Lobatto.Count; i++)
                        patch[(i * CellPolynomial.RowLength) + (j * CellPolynomial.PatchLanes) + lane] = coefficients[
                            i
                        ];
                }
            }
        }
    }

    private static double NodeAt(int depth, int node)
    {
        var cell = Math.Min(node / (Lobatto.Count - 1), GradedCells.Count(depth) - 1);
        var lower = GradedCells.LowerOf(depth, cell);
        var upper = GradedCells.LowerOf(depth, cell + 1);
        return (0.5 * (lower + upper)) + (0.5 * (upper - lower) * Lobatto.Points[node - (cell * (Lobatto.Count - 1))]);
    }

    internal static void StoreLine(ReadOnlySpan<double> values, Span<double> target, int lane)
    {
        Span<double> coefficients = stackalloc double[Lobatto.Count];
        Lobatto.Coefficients(values, coefficients);
        for (var k = 0; k < Lobatto.Count; k++)
            target[(k * CellPolynomial.Lanes) + lane] = coefficients[k];
    }

    private double Coordinate(in PointProperties point) =>
        _input switch
        {
            TableInput.Enthalpy => point.EnthalpyJPerKg,
            TableInput.Entropy => point.EntropyJPerKgK,
            _ => point.TemperatureK,
        };
}
