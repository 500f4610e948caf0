using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using Tightcold.Properties.Tables;

namespace Tightcold.Properties;

/// <summary>
/// The fast layer of a fluid: its reference equation tabled over the range vehicles live in, correct on both sides of
/// the saturation line. Against the reference layer T, density, h and s deviate by at most 1e-6 (relative), inside the
/// critical region (see docs/physics/properties.md) by at most 1e-4; within a thousandth of the critical pressure
/// the reference equations answer themselves, at their speed. Immutable, thread-safe, allocation-free.
/// </summary>
public sealed class FastFluid
{
    // Nearer to the saturation line than this the exact line decides the phase: relative in T, and of the width of the
    // dome in enthalpy and entropy.
    private const double ExactPhaseMargin = 1e-7,
        ExactDomeMargin = 1e-6;

    // A share this far beyond the end of a table is rounding of the caller, not another state.
    private const double EndSlack = 1e-9;

    private readonly Fluid _fluid;
    private readonly TableGeometry _geometry;
    private readonly CellAxis _axis;
    private readonly PressureRegime[] _regimes;
    private readonly FastSaturationLine _line;
    private readonly Lazy<PropertyTable> _byEnthalpy;
    private readonly Lazy<PropertyTable> _byEntropy;
    private readonly Lazy<PropertyTable> _byTemperature;
    private readonly double _minPressurePa;
    private readonly double _maxPressurePa;

    internal FastFluid(Fluid fluid)
    {
        _fluid = fluid;
        _geometry = new TableGeometry(fluid);
        _axis = _geometry.Axis;
        _regimes = _geometry.Regimes;
        _minPressurePa = _geometry.Range.MinPressurePa;
        _maxPressurePa = _geometry.Range.MaxPressurePa;
        _line = new FastSaturationLine(fluid, _geometry);
        _byEnthalpy = new Lazy<PropertyTable>(() => new PropertyTable(_geometry, TableInput.Enthalpy));
        _byEntropy = new Lazy<PropertyTable>(() => new PropertyTable(_geometry, TableInput.Entropy));
        _byTemperature = new Lazy<PropertyTable>(() => new PropertyTable(_geometry, TableInput.Temperature));
    }

    /// <summary>The fluid whose equation is tabled.</summary>
    public Fluid Fluid => _fluid;

    /// <summary>Lowest temperature covered, K.</summary>
    public double MinTemperatureK => _geometry.Range.MinTemperatureK;

    /// <summary>Highest temperature covered, K.</summary>
    public double MaxTemperatureK => _geometry.Range.MaxTemperatureK;

    /// <summary>Lowest pressure covered, Pa.</summary>
    public double MinPressurePa => _minPressurePa;

    /// <summary>Highest pressure covered, Pa.</summary>
    public double MaxPressurePa => _maxPressurePa;

    /// <summary>True where the tables hold a saturation line (not for nitrogen and air, far above theirs).</summary>
    public bool HasSaturation => _geometry.HasDome;

    /// <summary>Builds all three tables now instead of at the first call that needs them; returns their size in
    /// bytes.</summary>
    public int BuildAll() => _byEnthalpy.Value.SizeBytes + _byEntropy.Value.SizeBytes + _byTemperature.Value.SizeBytes;

    /// <summary>Saturation pressure, Pa, at a temperature from <see cref="MinTemperatureK"/> to the critical point (or
    /// the end of the tables).</summary>
    /// <exception cref="FluidRangeException">Outside that range or not a number.</exception>
    public double SaturationPressurePa(double temperatureK) => _line.SaturationPressurePa(temperatureK);

    /// <summary>Saturation at a temperature.</summary>
    /// <inheritdoc cref="SaturationPressurePa"/>
    public FastSaturation SaturationAtTemperature(double temperatureK) => _line.SaturationAtTemperature(temperatureK);

    /// <summary>Saturation at a temperature with the derivatives in temperature along the line (per kelvin; that of T
    /// is 1).</summary>
    /// <inheritdoc cref="SaturationPressurePa"/>
    public FastSaturation SaturationAtTemperature(double temperatureK, out FastSaturation byTemperature) =>
        _line.SaturationAtTemperature(temperatureK, out byTemperature);

    /// <summary>Saturation temperature, K, at an absolute pressure whose saturation temperature lies in the
    /// tables.</summary>
    /// <exception cref="FluidRangeException">Outside that range or not a number.</exception>
    public double SaturationTemperatureK(double pressurePa) => _line.SaturationTemperatureK(pressurePa);

    /// <summary>Saturation at an absolute pressure, Pa.</summary>
    /// <inheritdoc cref="SaturationTemperatureK"/>
    public FastSaturation SaturationAtPressure(double pressurePa) => _line.SaturationAtPressure(pressurePa);

    /// <summary>Saturation at an absolute pressure with the derivatives in pressure along the line (per pascal; that of
    /// p is 1).</summary>
    /// <inheritdoc cref="SaturationTemperatureK"/>
    public FastSaturation SaturationAtPressure(double pressurePa, out FastSaturation byPressure) =>
        _line.SaturationAtPressure(pressurePa, out byPressure);

    /// <summary>State at pressure and enthalpy.</summary>
    /// <exception cref="FluidRangeException">Outside the tables or not a number.</exception>
    public FastState AtPressureEnthalpy(double pressurePa, double enthalpyJPerKg) =>
        At<TableInputs.Enthalpy>(_byEnthalpy.Value, pressurePa, enthalpyJPerKg);

    /// <summary>State at pressure and enthalpy with first derivatives.</summary>
    /// <exception cref="FluidRangeException">Outside the tables or not a number.</exception>
    public FastState AtPressureEnthalpy(double pressurePa, double enthalpyJPerKg, out FastDerivatives derivatives) =>
        At<TableInputs.Enthalpy>(_byEnthalpy.Value, pressurePa, enthalpyJPerKg, out derivatives);

    /// <summary>State at pressure and entropy.</summary>
    /// <exception cref="FluidRangeException">Outside the tables or not a number.</exception>
    public FastState AtPressureEntropy(double pressurePa, double entropyJPerKgK) =>
        At<TableInputs.Entropy>(_byEntropy.Value, pressurePa, entropyJPerKgK);

    /// <summary>State at pressure and entropy with first derivatives.</summary>
    /// <exception cref="FluidRangeException">Outside the tables or not a number.</exception>
    public FastState AtPressureEntropy(double pressurePa, double entropyJPerKgK, out FastDerivatives derivatives) =>
        At<TableInputs.Entropy>(_byEntropy.Value, pressurePa, entropyJPerKgK, out derivatives);

    /// <summary>State at pressure and temperature; exactly on the saturation line the liquid.</summary>
    /// <exception cref="FluidRangeException">Outside the tables or not a number.</exception>
    public FastState AtPressureTemperature(double pressurePa, double temperatureK) =>
        At<TableInputs.Temperature>(_byTemperature.Value, pressurePa, temperatureK);

    /// <summary>State at pressure and temperature with first derivatives; exactly on the saturation line the
    /// liquid.</summary>
    /// <exception cref="FluidRangeException">Outside the tables or not a number.</exception>
    public FastState AtPressureTemperature(double pressurePa, double temperatureK, out FastDerivatives derivatives) =>
        At<TableInputs.Temperature>(_byTemperature.Value, pressurePa, temperatureK, out derivatives);

    /// <summary>States at many pressures and enthalpies; the spans have equal length.</summary>
    /// <exception cref="ArgumentException">Spans of different length.</exception>
    /// <exception cref="FluidRangeException">A point outside the tables; earlier results are already
    /// written.</exception>
    public void AtPressureEnthalpy(
        ReadOnlySpan<double> pressurePa,
        ReadOnlySpan<double> enthalpyJPerKg,
        Span<FastState> results
    ) => Batch<TableInputs.Enthalpy>(_byEnthalpy.Value, pressurePa, enthalpyJPerKg, results);

    /// <summary>States at many pressures and entropies; the spans have equal length.</summary>
    /// <inheritdoc cref="AtPressureEnthalpy(ReadOnlySpan{double}, ReadOnlySpan{double}, Span{FastState})"/>
    public void AtPressureEntropy(
        ReadOnlySpan<double> pressurePa,
        ReadOnlySpan<double> entropyJPerKgK,
        Span<FastState> results
    ) => Batch<TableInputs.Entropy>(_byEntropy.Value, pressurePa, entropyJPerKgK, results);

    /// <summary>States at many pressures and temperatures; the spans have equal length.</summary>
    /// <inheritdoc cref="AtPressureEnthalpy(ReadOnlySpan{double}, ReadOnlySpan{double}, Span{FastState})"/>
    public void AtPressureTemperature(
        ReadOnlySpan<double> pressurePa,
        ReadOnlySpan<double> temperatureK,
        Span<FastState> results
    ) => Batch<TableInputs.Temperature>(_byTemperature.Value, pressurePa, temperatureK, results);

    private void Batch<TInput>(
        PropertyTable table,
        ReadOnlySpan<double> pressurePa,
        ReadOnlySpan<double> z,
        Span<FastState> results
    )
        where TInput : struct, ITableInput
    {
        if (pressurePa.Length != z.Length || pressurePa.Length != results.Length)
            throw new ArgumentException("The spans must have equal length.", nameof(results));
        for (var i = 0; i < results.Length; i++)
            results[i] = At<TInput>(table, pressurePa[i], z[i]);
    }

    private FastState At<TInput>(PropertyTable table, double pressurePa, double z)
        where TInput : struct, ITableInput
    {
        if (!(pressurePa >= _minPressurePa && pressurePa <= _maxPressurePa))
            ThrowPressure(pressurePa);
        var cell = _axis.Locate(pressurePa, out var local);
        var regime = _regimes[cell];
        if (regime == PressureRegime.Critical)
            return FastReference.State(_fluid, TInput.Kind, pressurePa, z);
        var boundary = table.Boundary(cell, local);
        double edgeL = boundary.ToScalar(),
            edgeV = boundary.GetElement(1);
        if (regime == PressureRegime.Subcritical)
        {
            if (TInput.Kind == TableInput.Temperature)
            {
                if (Math.Abs(z - edgeL) < ExactPhaseMargin * edgeL)
                    return FastReference.State(_fluid, TInput.Kind, pressurePa, z);
            }
            else
            {
                var width = edgeV - edgeL;
                var above = z - edgeL;
                if (Math.Min(Math.Abs(above), Math.Abs(width - above)) < ExactDomeMargin * width)
                    return FastReference.State(_fluid, TInput.Kind, pressurePa, z);
                if (above > 0 && above < width)
                    return TwoPhase<TInput>(pressurePa, z, cell, local, above / width);
            }
        }

        var liquid = regime != PressureRegime.GasOnly && z <= edgeL;
        var edge = liquid ? edgeL : edgeV;
        var outer = liquid ? boundary.GetElement(2) : boundary.GetElement(3);
        var share = (z - edge) / (outer - edge);
        if (!(share >= 0 && share <= 1))
            share = Clamped(share, TInput.Kind, z, regime, boundary);
        var lanes = table.Evaluate(cell, local, liquid, share);
        var volume = liquid ? lanes.GetElement(1) : lanes.GetElement(1) / pressurePa;
        return Make<TInput>(pressurePa, z, lanes.ToScalar(), volume, lanes.GetElement(2), regime, liquid);
    }

    private FastState At<TInput>(PropertyTable table, double pressurePa, double z, out FastDerivatives derivatives)
        where TInput : struct, ITableInput
    {
        if (!(pressurePa >= _minPressurePa && pressurePa <= _maxPressurePa))
            ThrowPressure(pressurePa);
        var cell = _axis.Locate(pressurePa, out var local);
        var regime = _regimes[cell];
        if (regime == PressureRegime.Critical)
            return FastReference.State(_fluid, TInput.Kind, pressurePa, z, out derivatives);
        var boundary = table.Boundary(cell, local, out var boundarySlope);
        double edgeL = boundary.ToScalar(),
            edgeV = boundary.GetElement(1);
        if (regime == PressureRegime.Subcritical)
        {
            if (TInput.Kind == TableInput.Temperature)
            {
                if (Math.Abs(z - edgeL) < ExactPhaseMargin * edgeL)
                    return FastReference.State(_fluid, TInput.Kind, pressurePa, z, out derivatives);
            }
            else
            {
                var width = edgeV - edgeL;
                var above = z - edgeL;
                if (Math.Min(Math.Abs(above), Math.Abs(width - above)) < ExactDomeMargin * width)
                    return FastReference.State(_fluid, TInput.Kind, pressurePa, z, out derivatives);
                if (above > 0 && above < width)
                    return TwoPhase<TInput>(pressurePa, z, cell, local, above / width, out derivatives);
            }
        }

        var liquid = regime != PressureRegime.GasOnly && z <= edgeL;
        double edge,
            outer,
            edgeSlope,
            outerSlope;
        if (liquid)
        {
            edge = edgeL;
            outer = boundary.GetElement(2);
            edgeSlope = boundarySlope.ToScalar();
            outerSlope = boundarySlope.GetElement(2);
        }
        else
        {
            edge = edgeV;
            outer = boundary.GetElement(3);
            edgeSlope = boundarySlope.GetElement(1);
            outerSlope = boundarySlope.GetElement(3);
        }

        var inverseWidth = 1 / (outer - edge);
        var share = (z - edge) * inverseWidth;
        if (!(share >= 0 && share <= 1))
            share = Clamped(share, TInput.Kind, z, regime, boundary);
        var lanes = table.Evaluate(cell, local, liquid, share, out var byLocal, out var byShare);

        // share = (z - edge)/(outer - edge): its slopes in z and, through both ends, in p.
        var shareByLocal = -inverseWidth * (edgeSlope + (share * (outerSlope - edgeSlope)));
        var byPressure =
            Vector256.FusedMultiplyAdd(byShare, Vector256.Create(shareByLocal), byLocal) * _axis.Scale(cell);
        var byZ = byShare * inverseWidth;
        var lane1 = lanes.GetElement(1);
        double volume,
            volumeByP,
            volumeByZ;
        if (liquid)
        {
            volume = lane1;
            volumeByP = byPressure.GetElement(1);
            volumeByZ = byZ.GetElement(1);
        }
        else
        {
            var inverseP = 1 / pressurePa;
            volume = lane1 * inverseP;
            volumeByP = (byPressure.GetElement(1) - volume) * inverseP;
            volumeByZ = byZ.GetElement(1) * inverseP;
        }

        var density = 1 / volume;
        var square = -density * density;
        var first = lanes.ToScalar();
        double firstByP = byPressure.ToScalar(),
            firstByZ = byZ.ToScalar();
        // T ds = dh - v dp gives what the table need not hold.
        derivatives = TInput.Kind switch
        {
            TableInput.Enthalpy => new FastDerivatives(
                firstByP,
                firstByZ,
                square * volumeByP,
                square * volumeByZ,
                0,
                1,
                -volume / first,
                1 / first
            ),
            TableInput.Entropy => new FastDerivatives(
                firstByP,
                firstByZ,
                square * volumeByP,
                square * volumeByZ,
                volume,
                first,
                0,
                1
            ),
            _ => new FastDerivatives(
                0,
                1,
                square * volumeByP,
                square * volumeByZ,
                firstByP,
                firstByZ,
                -volumeByZ,
                firstByZ / z
            ),
        };
        return Make<TInput>(pressurePa, z, first, volume, lanes.GetElement(2), regime, liquid);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private FastState Make<TInput>(
        double pressurePa,
        double z,
        double first,
        double volume,
        double last,
        PressureRegime regime,
        bool liquid
    )
        where TInput : struct, ITableInput
    {
        var density = 1 / volume;
        return TInput.Kind switch
        {
            TableInput.Enthalpy => new FastState(
                first,
                pressurePa,
                density,
                z,
                last,
                null,
                PhaseOf(regime, liquid, first, pressurePa)
            ),
            TableInput.Entropy => new FastState(
                first,
                pressurePa,
                density,
                last,
                z,
                null,
                PhaseOf(regime, liquid, first, pressurePa)
            ),
            _ => new FastState(z, pressurePa, density, first, last, null, PhaseOf(regime, liquid, z, pressurePa)),
        };
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private FluidPhase PhaseOf(PressureRegime regime, bool liquid, double temperatureK, double pressurePa) =>
        regime == PressureRegime.Subcritical ? (liquid ? FluidPhase.Liquid : FluidPhase.Gas)
        : regime == PressureRegime.GasOnly && pressurePa < _geometry.CriticalPressurePa ? FluidPhase.Gas
        : _fluid.ByTemperature.SupercriticalPhase(temperatureK, pressurePa);

    private FastState TwoPhase<TInput>(double pressurePa, double z, int cell, double local, double quality)
        where TInput : struct, ITableInput
    {
        var (a, b) = _line.ByPressure!.Evaluate(cell, local);
        double volumeL = 1 / b.GetElement(1),
            volumeV = 1 / b.GetElement(2);
        var density = 1 / (volumeL + (quality * (volumeV - volumeL)));
        return TInput.Kind == TableInput.Enthalpy
            ? new FastState(
                a.ToScalar(),
                pressurePa,
                density,
                z,
                a.GetElement(3) + (quality * (b.ToScalar() - a.GetElement(3))),
                quality,
                FluidPhase.TwoPhase
            )
            : new FastState(
                a.ToScalar(),
                pressurePa,
                density,
                a.GetElement(1) + (quality * (a.GetElement(2) - a.GetElement(1))),
                z,
                quality,
                FluidPhase.TwoPhase
            );
    }

    private FastState TwoPhase<TInput>(
        double pressurePa,
        double z,
        int cell,
        double local,
        double quality,
        out FastDerivatives derivatives
    )
        where TInput : struct, ITableInput
    {
        var (a, b) = _line.ByPressure!.Evaluate(cell, local, out var slopeA, out var slopeB);
        var scale = _axis.Scale(cell);
        slopeA *= scale;
        slopeB *= scale;
        var temperature = a.ToScalar();
        var temperatureByP = slopeA.ToScalar();
        double volumeL = 1 / b.GetElement(1),
            volumeV = 1 / b.GetElement(2);
        double volumeLByP = -volumeL * volumeL * slopeB.GetElement(1),
            volumeVByP = -volumeV * volumeV * slopeB.GetElement(2);
        var enthalpy = TInput.Kind == TableInput.Enthalpy;
        double zL,
            zV,
            zLByP,
            zVByP;
        if (enthalpy)
        {
            (zL, zV, zLByP, zVByP) = (a.GetElement(1), a.GetElement(2), slopeA.GetElement(1), slopeA.GetElement(2));
        }
        else
        {
            (zL, zV, zLByP, zVByP) = (a.GetElement(3), b.ToScalar(), slopeA.GetElement(3), slopeB.ToScalar());
        }

        var qualityByZ = 1 / (zV - zL);
        var qualityByP = -qualityByZ * (zLByP + (quality * (zVByP - zLByP)));
        var volume = volumeL + (quality * (volumeV - volumeL));
        var volumeByP = volumeLByP + (quality * (volumeVByP - volumeLByP)) + (qualityByP * (volumeV - volumeL));
        var volumeByZ = qualityByZ * (volumeV - volumeL);
        var density = 1 / volume;
        var square = -density * density;
        derivatives = enthalpy
            ? new FastDerivatives(
                temperatureByP,
                0,
                square * volumeByP,
                square * volumeByZ,
                0,
                1,
                -volume / temperature,
                1 / temperature
            )
            : new FastDerivatives(temperatureByP, 0, square * volumeByP, square * volumeByZ, volume, temperature, 0, 1);
        return enthalpy
            ? new FastState(
                temperature,
                pressurePa,
                density,
                z,
                a.GetElement(3) + (quality * (b.ToScalar() - a.GetElement(3))),
                quality,
                FluidPhase.TwoPhase
            )
            : new FastState(
                temperature,
                pressurePa,
                density,
                a.GetElement(1) + (quality * (a.GetElement(2) - a.GetElement(1))),
                z,
                quality,
                FluidPhase.TwoPhase
            );
    }

    private void ThrowPressure(double pressurePa) =>
        throw new FluidRangeException(
            _fluid.Name,
            nameof(pressurePa),
            pressurePa,
            Flashes.TemperatureFlash.Range(_minPressurePa, _maxPressurePa, "Pa (fast layer)")
        );

    private double Clamped(double share, TableInput input, double z, PressureRegime regime, Vector256<double> boundary)
    {
        if (share >= -EndSlack && share <= 1 + EndSlack)
            return Math.Clamp(share, 0, 1);
        var low = regime == PressureRegime.GasOnly ? boundary.GetElement(1) : boundary.GetElement(2);
        var (name, unit) = input switch
        {
            TableInput.Enthalpy => ("enthalpyJPerKg", "J/kg"),
            TableInput.Entropy => ("entropyJPerKgK", "J/(kg K)"),
            _ => ("temperatureK", "K"),
        };
        throw new FluidRangeException(
            _fluid.Name,
            name,
            z,
            Flashes.TemperatureFlash.Range(low, boundary.GetElement(3), $"{unit} at this pressure (fast layer)")
        );
    }
}
