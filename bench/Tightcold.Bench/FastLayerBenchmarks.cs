using BenchmarkDotNet.Attributes;
using Tightcold.Properties;

namespace Tightcold.Bench;

/// <summary>One call of the fast layer, averaged over the points.</summary>
public class FastLayerBenchmarks
{
    private readonly FastState[] _results = new FastState[StatePoints.Count];
    private FastFluid _fast = null!;
    private StatePoints _points = null!;

    [Params("R134a", "R1234yf", "R744")]
    public string Name { get; set; } = "R134a";

    [GlobalSetup]
    public void Setup()
    {
        _fast = FluidCatalog.GetFast(Name);
        _fast.BuildAll();
        _points = StatePoints.Of(Name);
    }

    [Benchmark(Description = "saturation pressure at T", OperationsPerInvoke = StatePoints.Count)]
    public double SaturationPressure()
    {
        var sum = 0.0;
        for (var i = 0; i < StatePoints.Count; i++)
            sum += _fast.SaturationPressurePa(_points.SaturationTemperatureK[i]);
        return sum;
    }

    [Benchmark(Description = "saturation at T, all", OperationsPerInvoke = StatePoints.Count)]
    public double Saturation()
    {
        var sum = 0.0;
        for (var i = 0; i < StatePoints.Count; i++)
            sum += _fast.SaturationAtTemperature(_points.SaturationTemperatureK[i]).VapourEnthalpyJPerKg;
        return sum;
    }

    [Benchmark(Description = "saturation at p, all", OperationsPerInvoke = StatePoints.Count)]
    public double SaturationByPressure()
    {
        var sum = 0.0;
        for (var i = 0; i < StatePoints.Count; i++)
            sum += _fast.SaturationAtPressure(_points.SaturationPressurePa[i]).VapourEnthalpyJPerKg;
        return sum;
    }

    [Benchmark(Description = "(p,h)", OperationsPerInvoke = StatePoints.Count)]
    public double PressureEnthalpy()
    {
        var sum = 0.0;
        for (var i = 0; i < StatePoints.Count; i++)
            sum += _fast.AtPressureEnthalpy(_points.PressurePa[i], _points.EnthalpyJPerKg[i]).TemperatureK;
        return sum;
    }

    [Benchmark(Description = "(p,h) with derivatives", OperationsPerInvoke = StatePoints.Count)]
    public double PressureEnthalpyDerivatives()
    {
        var sum = 0.0;
        for (var i = 0; i < StatePoints.Count; i++)
            sum +=
                _fast.AtPressureEnthalpy(_points.PressurePa[i], _points.EnthalpyJPerKg[i], out var d).TemperatureK
                + d.DensityByInput;
        return sum;
    }

    [Benchmark(Description = "(p,T)", OperationsPerInvoke = StatePoints.Count)]
    public double PressureTemperature()
    {
        var sum = 0.0;
        for (var i = 0; i < StatePoints.Count; i++)
            sum += _fast
                .AtPressureTemperature(_points.SinglePressurePa[i], _points.SingleTemperatureK[i])
                .DensityKgPerM3;
        return sum;
    }

    [Benchmark(Description = "(p,T) with derivatives", OperationsPerInvoke = StatePoints.Count)]
    public double PressureTemperatureDerivatives()
    {
        var sum = 0.0;
        for (var i = 0; i < StatePoints.Count; i++)
            sum +=
                _fast
                    .AtPressureTemperature(_points.SinglePressurePa[i], _points.SingleTemperatureK[i], out var d)
                    .DensityKgPerM3 + d.EnthalpyByInput;
        return sum;
    }

    [Benchmark(Description = "(p,s) with derivatives", OperationsPerInvoke = StatePoints.Count)]
    public double PressureEntropyDerivatives()
    {
        var sum = 0.0;
        for (var i = 0; i < StatePoints.Count; i++)
            sum +=
                _fast.AtPressureEntropy(_points.PressurePa[i], _points.EntropyJPerKgK[i], out var d).TemperatureK
                + d.DensityByInput;
        return sum;
    }

    [Benchmark(Description = "(p,h) batch", OperationsPerInvoke = StatePoints.Count)]
    public double Batch()
    {
        _fast.AtPressureEnthalpy(_points.PressurePa, _points.EnthalpyJPerKg, _results);
        return _results[^1].TemperatureK;
    }
}
