using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Tightcold.Properties.Tables;

/// <summary>
/// The saturation line over the pressure cells of the tables. First lanes: T, liquid and vapour enthalpy, liquid
/// entropy; second: vapour entropy, liquid and vapour density.
/// </summary>
internal sealed class SaturationByPressure
{
    private readonly double[] _lines;

    public SaturationByPressure(TableGeometry geometry)
    {
        _lines = new double[geometry.Axis.Count * 2 * CellPolynomial.LineLength];
        Span<double> values = stackalloc double[Lobatto.Count];
        for (var cell = 0; cell < geometry.Axis.Count; cell++)
        {
            if (geometry.Regimes[cell] != PressureRegime.Subcritical)
                continue;
            for (var lane = 0; lane < 7; lane++)
            {
                for (var i = 0; i < Lobatto.Count; i++)
                {
                    var (liquid, vapour) = (geometry.Ends[cell][i].LiquidEdge, geometry.Ends[cell][i].GasEdge);
                    values[i] = lane switch
                    {
                        0 => liquid.TemperatureK,
                        1 => liquid.EnthalpyJPerKg,
                        2 => vapour.EnthalpyJPerKg,
                        3 => liquid.EntropyJPerKgK,
                        4 => vapour.EntropyJPerKgK,
                        5 => liquid.DensityKgPerM3,
                        _ => vapour.DensityKgPerM3,
                    };
                }

                var start = ((2 * cell) + (lane / CellPolynomial.Lanes)) * CellPolynomial.LineLength;
                PropertyTable.StoreLine(
                    values,
                    _lines.AsSpan(start, CellPolynomial.LineLength),
                    lane % CellPolynomial.Lanes
                );
            }
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public (Vector256<double> First, Vector256<double> Second) Evaluate(int cell, double local)
    {
        ref var start = ref Unsafe.Add(
            ref MemoryMarshal.GetArrayDataReference(_lines),
            2 * cell * CellPolynomial.LineLength
        );
        return (
            CellPolynomial.Line(ref start, local),
            CellPolynomial.Line(ref Unsafe.Add(ref start, CellPolynomial.LineLength), local)
        );
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public (Vector256<double> First, Vector256<double> Second) Evaluate(
        int cell,
        double local,
        out Vector256<double> firstSlope,
        out Vector256<double> secondSlope
    )
    {
        ref var start = ref Unsafe.Add(
            ref MemoryMarshal.GetArrayDataReference(_lines),
            2 * cell * CellPolynomial.LineLength
        );
        var x = Vector256.Create(local);
        return (
            CellPolynomial.Line(ref start, x, out firstSlope),
            CellPolynomial.Line(ref Unsafe.Add(ref start, CellPolynomial.LineLength), x, out secondSlope)
        );
    }
}
