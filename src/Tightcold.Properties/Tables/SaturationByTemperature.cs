using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using Tightcold.Properties.Flashes;
using Tightcold.Properties.Helmholtz;

namespace Tightcold.Properties.Tables;

/// <summary>
/// The saturation line over temperature, in cells of the distance to the critical temperature that grow finer towards
/// it. First lanes: p, liquid and vapour density, liquid enthalpy; second: vapour enthalpy, liquid and vapour entropy.
/// </summary>
internal sealed class SaturationByTemperature
{
    /// <summary>Closer to the critical temperature than this share of it the reference equations answer.</summary>
    public const double CriticalBand = 0.001;

    private const double WidestCellK = 5;
    private const double CellRatio = 1.09;

    private readonly double[] _lines;

    public SaturationByTemperature(Fluid fluid, double minTemperatureK, double maxTemperatureK)
    {
        CriticalTemperatureK = fluid.CriticalTemperatureK;
        var distance = Math.Max(CriticalBand * CriticalTemperatureK, CriticalTemperatureK - maxTemperatureK);
        var far = CriticalTemperatureK - minTemperatureK;
        var limits = new List<double> { distance };
        while (limits[^1] < far)
        {
            var next = Math.Min(limits[^1] * CellRatio, limits[^1] + WidestCellK);
            limits.Add(next >= far - 0.5 ? far : next);
        }

        Axis = new CellAxis([.. limits]);
        _lines = new double[Axis.Count * 2 * CellPolynomial.LineLength];
        Span<double> values = stackalloc double[Lobatto.Count];
        var points = new (PointProperties Liquid, PointProperties Vapour, double Pressure)[Lobatto.Count];
        for (var cell = 0; cell < Axis.Count; cell++)
        {
            for (var i = 0; i < Lobatto.Count; i++)
            {
                var temperature = Math.Max(CriticalTemperatureK - Axis.At(cell, Lobatto.Points[i]), minTemperatureK);
                if (
                    !SaturationLookup.TryAtTemperature(
                        fluid.ByTemperature,
                        temperature,
                        out var liquid,
                        out var vapour,
                        out var pressure,
                        out var residual
                    )
                )
                    throw new FlashDidNotConvergeException(
                        fluid.Name,
                        "a table node",
                        residual,
                        "the saturation iteration did not settle"
                    );
                points[i] = (liquid, vapour, pressure);
            }

            for (var lane = 0; lane < 7; lane++)
            {
                for (var i = 0; i < Lobatto.Count; i++)
                {
                    var (liquid, vapour, pressure) = points[i];
                    values[i] = lane switch
                    {
                        0 => pressure,
                        1 => liquid.DensityKgPerM3,
                        2 => vapour.DensityKgPerM3,
                        3 => liquid.EnthalpyJPerKg,
                        4 => vapour.EnthalpyJPerKg,
                        5 => liquid.EntropyJPerKgK,
                        _ => vapour.EntropyJPerKgK,
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

    public double CriticalTemperatureK { get; }

    /// <summary>Cells of the distance to the critical temperature.</summary>
    public CellAxis Axis { get; }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public Vector256<double> EvaluateFirst(int cell, double local) => CellPolynomial.Line(ref Start(cell), local);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public Vector256<double> EvaluateSecond(int cell, double local) =>
        CellPolynomial.Line(ref Unsafe.Add(ref Start(cell), CellPolynomial.LineLength), local);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public (Vector256<double> First, Vector256<double> Second) Evaluate(
        int cell,
        double local,
        out Vector256<double> firstSlope,
        out Vector256<double> secondSlope
    )
    {
        ref var start = ref Start(cell);
        var x = Vector256.Create(local);
        return (
            CellPolynomial.Line(ref start, x, out firstSlope),
            CellPolynomial.Line(ref Unsafe.Add(ref start, CellPolynomial.LineLength), x, out secondSlope)
        );
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private ref double Start(int cell) =>
        ref Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(_lines), 2 * cell * CellPolynomial.LineLength);
}
