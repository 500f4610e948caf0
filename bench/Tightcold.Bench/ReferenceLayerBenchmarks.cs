using BenchmarkDotNet.Attributes;
using Tightcold.Properties;

namespace Tightcold.Bench;

/// <summary>One call of the reference layer, averaged over the points.</summary>
public class ReferenceLayerBenchmarks
{
    private Fluid _fluid = null!;
    private StatePoints _points = null!;

    [Params("R134a", "R1234yf", "R744")]
    public string Name { get; set; } = "R134a";

    [GlobalSetup]
    public void Setup()
    {
        _fluid = FluidCatalog.Get(Name);
        _points = StatePoints.Of(Name);
    }

    [Benchmark(Description = "(T,rho) -> p, h, s", OperationsPerInvoke = StatePoints.Count)]
    public double TemperatureDensity()
    {
        var sum = 0.0;
        for (var i = 0; i < StatePoints.Count; i++)
            sum += _fluid.AtTemperatureDensity(_points.SingleTemperatureK[i], _points.SingleDensity[i]).EnthalpyJPerKg;
        return sum;
    }

    [Benchmark(Description = "saturation pressure alone at T", OperationsPerInvoke = StatePoints.Count)]
    public double SaturationPressure()
    {
        var sum = 0.0;
        for (var i = 0; i < StatePoints.Count; i++)
            sum += _fluid.SaturationPressurePa(_points.SaturationTemperatureK[i]);
        return sum;
    }

    [Benchmark(Description = "saturation at T, with h and s", OperationsPerInvoke = StatePoints.Count)]
    public double Saturation()
    {
        var sum = 0.0;
        for (var i = 0; i < StatePoints.Count; i++)
            sum += _fluid.SaturationAtTemperature(_points.SaturationTemperatureK[i]).VapourEnthalpyJPerKg;
        return sum;
    }

    [Benchmark(Description = "saturation at p, with h and s", OperationsPerInvoke = StatePoints.Count)]
    public double SaturationByPressure()
    {
        var sum = 0.0;
        for (var i = 0; i < StatePoints.Count; i++)
            sum += _fluid.SaturationAtPressure(_points.SaturationPressurePa[i]).VapourEnthalpyJPerKg;
        return sum;
    }

    [Benchmark(Description = "(p,h)", OperationsPerInvoke = StatePoints.Count)]
    public double PressureEnthalpy()
    {
        var sum = 0.0;
        for (var i = 0; i < StatePoints.Count; i++)
            sum += _fluid.AtPressureEnthalpy(_points.PressurePa[i], _points.EnthalpyJPerKg[i]).TemperatureK;
        return sum;
    }

    [Benchmark(Description = "(p,T)", OperationsPerInvoke = StatePoints.Count)]
    public double PressureTemperature()
    {
        var sum = 0.0;
        for (var i = 0; i < StatePoints.Count; i++)
            sum += _fluid
                .AtTemperaturePressure(_points.SingleTemperatureK[i], _points.SinglePressurePa[i])
                .DensityKgPerM3;
        return sum;
    }

    [Benchmark(Description = "(p,s)", OperationsPerInvoke = StatePoints.Count)]
    public double PressureEntropy()
    {
        var sum = 0.0;
        for (var i = 0; i < StatePoints.Count; i++)
            sum += _fluid.AtPressureEntropy(_points.PressurePa[i], _points.EntropyJPerKgK[i]).TemperatureK;
        return sum;
    }
}
