using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using Tightcold.Numerics.Interpolation;

namespace Tightcold.Properties.Saturation;

/// <summary>
/// The series of one stretch of the saturation line, all in x = sqrt(1 - T/Tc), evaluated together in vector lanes:
/// liquid density, ln of vapour density, ln of pressure, liquid enthalpy; vapour enthalpy, liquid and vapour entropy.
/// </summary>
internal sealed class SaturationSegment
{
    private const int Lanes = 8;

    private readonly double _centre;
    private readonly double _inverseHalf;
    private readonly double[] _powers;
    private readonly int _last;

    /// <param name="lower">Lower end in x.</param>
    /// <param name="upper">Upper end in x.</param>
    /// <param name="columns">Seven columns of values at the Chebyshev nodes, in the order of the lanes.</param>
    public SaturationSegment(double lower, double upper, double[][] columns)
    {
        _centre = 0.5 * (lower + upper);
        _inverseHalf = 2 / (upper - lower);
        var count = columns[0].Length;
        _powers = new double[count * Lanes];
        _last = (count - 1) * Lanes;
        for (var lane = 0; lane < columns.Length; lane++)
        {
            var powers = ChebyshevSeries.FromNodeValues(lower, upper, columns[lane]).ToPowers();
            for (var k = 0; k < count; k++)
                _powers[(k * Lanes) + lane] = powers[k];
        }
    }

    public SaturationEstimate Estimate(double x, double temperatureK)
    {
        var first = First(x, out var second);
        return new SaturationEstimate(
            temperatureK,
            Math.Exp(first.GetElement(2)),
            first.ToScalar(),
            Math.Exp(first.GetElement(1)),
            first.GetElement(3),
            second.ToScalar(),
            second.GetElement(1),
            second.GetElement(2)
        );
    }

    /// <summary>Liquid density, ln of vapour density, ln of pressure and liquid enthalpy at x.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public Vector256<double> First(double x)
    {
        ref var powers = ref MemoryMarshal.GetArrayDataReference(_powers);
        var y = Vector256.Create((x - _centre) * _inverseHalf);
        var value = Vector256.LoadUnsafe(ref powers, (nuint)_last);
        for (var k = _last - Lanes; k >= 0; k -= Lanes)
            value = Vector256.FusedMultiplyAdd(value, y, Vector256.LoadUnsafe(ref powers, (nuint)k));
        return value;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private Vector256<double> First(double x, out Vector256<double> second)
    {
        ref var powers = ref MemoryMarshal.GetArrayDataReference(_powers);
        var y = Vector256.Create((x - _centre) * _inverseHalf);
        var value = Vector256.LoadUnsafe(ref powers, (nuint)_last);
        var other = Vector256.LoadUnsafe(ref powers, (nuint)(_last + 4));
        for (var k = _last - Lanes; k >= 0; k -= Lanes)
        {
            value = Vector256.FusedMultiplyAdd(value, y, Vector256.LoadUnsafe(ref powers, (nuint)k));
            other = Vector256.FusedMultiplyAdd(other, y, Vector256.LoadUnsafe(ref powers, (nuint)(k + 4)));
        }

        second = other;
        return value;
    }
}
