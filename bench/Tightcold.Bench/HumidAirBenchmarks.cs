using BenchmarkDotNet.Attributes;
using Tightcold.Properties;

namespace Tightcold.Bench;

/// <summary>Moist air and the making of tables.</summary>
public class HumidAirBenchmarks
{
    private int _step;

    [Benchmark(Description = "moist air, full state from T and RH")]
    public double State() => HumidAir.FromRelativeHumidity(280 + (0.01 * (_step++ % 4000)), 0.5, 101325).WetBulbK;

    [Benchmark(Description = "moist air, enthalpy from T and W")]
    public double Enthalpy() => HumidAir.EnthalpyJPerKgDryAir(280 + (0.01 * (_step++ % 4000)), 0.005, 101325);

    [Benchmark(Description = "moist air, saturation humidity ratio")]
    public double Saturation() => HumidAir.SaturationHumidityRatio(280 + (0.01 * (_step++ % 4000)), 101325);
}
