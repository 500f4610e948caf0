using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace Tightcold.Properties.Tables;

/// <summary>The saturation line of the fast layer, by temperature and by pressure; next to the critical point the
/// reference equation answers. Immutable. What each call gives and refuses is said at <see cref="FastFluid"/>, into
/// which they are compiled.</summary>
internal sealed class FastSaturationLine
{
    private readonly Fluid _fluid;
    private readonly TableGeometry _geometry;
    private readonly CellAxis _axis;
    private readonly PressureRegime[] _regimes;
    private readonly SaturationByPressure? _saturationByPressure;
    private readonly SaturationByTemperature? _saturationByTemperature;
    private readonly double _minPressurePa;
    private readonly double _maxPressurePa;
    private readonly double _minSaturationK;
    private readonly double _maxSaturationK;

    public FastSaturationLine(Fluid fluid, TableGeometry geometry)
    {
        _fluid = fluid;
        _geometry = geometry;
        _axis = geometry.Axis;
        _regimes = geometry.Regimes;
        _minPressurePa = geometry.Range.MinPressurePa;
        _maxPressurePa = geometry.Range.MaxPressurePa;
        _minSaturationK = geometry.Range.MinTemperatureK;
        _maxSaturationK = Math.Min(geometry.Range.MaxTemperatureK, fluid.CriticalTemperatureK);
        if (!geometry.HasDome)
            return;
        _saturationByPressure = new SaturationByPressure(geometry);
        _saturationByTemperature = new SaturationByTemperature(fluid, _minSaturationK, _maxSaturationK);
    }

    /// <summary>Null where the tables hold no saturation line.</summary>
    public SaturationByPressure? ByPressure => _saturationByPressure;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public double SaturationPressurePa(double temperatureK)
    {
        var distance = DistanceToCritical(temperatureK);
        if (distance < _saturationByTemperature!.Axis.Lower)
            return _fluid.SaturationAtTemperature(temperatureK).PressurePa;
        var cell = _saturationByTemperature.Axis.Locate(distance, out var local);
        return _saturationByTemperature.EvaluateFirst(cell, local).ToScalar();
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public FastSaturation SaturationAtTemperature(double temperatureK)
    {
        var distance = DistanceToCritical(temperatureK);
        if (distance < _saturationByTemperature!.Axis.Lower)
            return FastReference.Saturation(_fluid.SaturationAtTemperature(temperatureK));
        var cell = _saturationByTemperature.Axis.Locate(distance, out var local);
        var a = _saturationByTemperature.EvaluateFirst(cell, local);
        var b = _saturationByTemperature.EvaluateSecond(cell, local);
        return new FastSaturation(
            temperatureK,
            a.ToScalar(),
            a.GetElement(1),
            a.GetElement(2),
            a.GetElement(3),
            b.ToScalar(),
            b.GetElement(1),
            b.GetElement(2)
        );
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public FastSaturation SaturationAtTemperature(double temperatureK, out FastSaturation byTemperature)
    {
        var distance = DistanceToCritical(temperatureK);
        if (distance < _saturationByTemperature!.Axis.Lower)
            return FastReference.SaturationAtTemperature(_fluid, temperatureK, out byTemperature);
        var cell = _saturationByTemperature.Axis.Locate(distance, out var local);
        var (a, b) = _saturationByTemperature.Evaluate(cell, local, out var slopeA, out var slopeB);
        var scale = -_saturationByTemperature.Axis.Scale(cell);
        slopeA *= scale;
        slopeB *= scale;
        byTemperature = new FastSaturation(
            1,
            slopeA.ToScalar(),
            slopeA.GetElement(1),
            slopeA.GetElement(2),
            slopeA.GetElement(3),
            slopeB.ToScalar(),
            slopeB.GetElement(1),
            slopeB.GetElement(2)
        );
        return new FastSaturation(
            temperatureK,
            a.ToScalar(),
            a.GetElement(1),
            a.GetElement(2),
            a.GetElement(3),
            b.ToScalar(),
            b.GetElement(1),
            b.GetElement(2)
        );
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public double SaturationTemperatureK(double pressurePa)
    {
        var cell = SaturationCell(pressurePa, out var local);
        return cell < 0
            ? _fluid.SaturationAtPressure(pressurePa).TemperatureK
            : _saturationByPressure!.Evaluate(cell, local).First.ToScalar();
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public FastSaturation SaturationAtPressure(double pressurePa)
    {
        var cell = SaturationCell(pressurePa, out var local);
        if (cell < 0)
            return FastReference.Saturation(_fluid.SaturationAtPressure(pressurePa));
        var (a, b) = _saturationByPressure!.Evaluate(cell, local);
        return new FastSaturation(
            a.ToScalar(),
            pressurePa,
            b.GetElement(1),
            b.GetElement(2),
            a.GetElement(1),
            a.GetElement(2),
            a.GetElement(3),
            b.ToScalar()
        );
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public FastSaturation SaturationAtPressure(double pressurePa, out FastSaturation byPressure)
    {
        var cell = SaturationCell(pressurePa, out var local);
        if (cell < 0)
            return FastReference.SaturationAtPressure(_fluid, pressurePa, out byPressure);
        var (a, b) = _saturationByPressure!.Evaluate(cell, local, out var slopeA, out var slopeB);
        var scale = _axis.Scale(cell);
        slopeA *= scale;
        slopeB *= scale;
        byPressure = new FastSaturation(
            slopeA.ToScalar(),
            1,
            slopeB.GetElement(1),
            slopeB.GetElement(2),
            slopeA.GetElement(1),
            slopeA.GetElement(2),
            slopeA.GetElement(3),
            slopeB.ToScalar()
        );
        return new FastSaturation(
            a.ToScalar(),
            pressurePa,
            b.GetElement(1),
            b.GetElement(2),
            a.GetElement(1),
            a.GetElement(2),
            a.GetElement(3),
            b.ToScalar()
        );
    }

    private double DistanceToCritical(double temperatureK)
    {
        if (!(temperatureK >= _minSaturationK && temperatureK <= _maxSaturationK) || _saturationByTemperature is null)
            ThrowSaturation(nameof(temperatureK), temperatureK, TemperatureRange());
        return _saturationByTemperature.CriticalTemperatureK - temperatureK;
    }

    private int SaturationCell(double pressurePa, out double local)
    {
        if (
            !(
                pressurePa >= Math.Max(_geometry.DomeStartPa, _minPressurePa)
                && pressurePa <= Math.Min(_geometry.CriticalPressurePa, _maxPressurePa)
            )
        )
            ThrowSaturation(nameof(pressurePa), pressurePa, PressureRange());
        var cell = _axis.Locate(pressurePa, out local);
        return _regimes[cell] == PressureRegime.Subcritical ? cell : -1;
    }

    private string TemperatureRange() =>
        _geometry.HasDome
            ? Flashes.TemperatureFlash.Range(_minSaturationK, _maxSaturationK, "K (fast layer)")
            : "none: no saturation in the fast layer's range";

    private string PressureRange() =>
        _geometry.HasDome
            ? Flashes.TemperatureFlash.Range(
                Math.Max(_geometry.DomeStartPa, _minPressurePa),
                Math.Min(_geometry.CriticalPressurePa, _maxPressurePa),
                "Pa (fast layer)"
            )
            : "none: no saturation in the fast layer's range";

    [System.Diagnostics.CodeAnalysis.DoesNotReturn]
    private void ThrowSaturation(string input, double value, string range) =>
        throw new FluidRangeException(_fluid.Name, input, value, range);
}
