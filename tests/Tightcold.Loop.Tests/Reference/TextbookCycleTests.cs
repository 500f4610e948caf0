using Tightcold.Loop.Refrigerant;

namespace Tightcold.Loop.Tests.Reference;

/// <summary>
/// Worked cycles of textbooks through the loop's own property table. Figures from memory, re-derived from the equation
/// of state elsewhere; tables in the books round, so 1 % is asked.
/// </summary>
public sealed class TextbookCycleTests
{
    private readonly RefrigerantTable _table = RefrigerantTables.For("R134a");

    /// <summary>Cengel and Boles, Thermodynamics, example 11-1: ideal cycle 0.14 to 0.8 MPa, 0.05 kg/s: 7.18 kW, 1.81
    /// kW, 9.0 kW, COP 3.97.</summary>
    [Fact]
    public void Ideal_cycle_of_Cengel_and_Boles() => Check(Ideal(0.14e6, 0.80e6), 0.05, 7.18e3, 1.81e3, 3.97);

    /// <summary>Example 11-2: in at 0.14 MPa and -10 °C, out at 0.8 MPa and 50 °C, liquid at 26 °C: 7.93 kW, 2.02 kW,
    /// efficiency 0.939.</summary>
    [Fact]
    public void Actual_cycle_of_Cengel_and_Boles()
    {
        _table.Row(Math.Log(0.14e6), out var low);
        _table.Row(Math.Log(0.80e6), out var high);
        var h1 = low.SuperheatedEnthalpy(263.15 - low.TemperatureK);
        var h2 = high.SuperheatedEnthalpy(323.15 - high.TemperatureK);
        var h3 = high.LiquidEnthalpy - (high.LiquidCp * (high.TemperatureK - 299.15));
        Check((h1 - h3, h2 - h1), 0.05, 7.93e3, 2.02e3, 3.93);
        var ideal = high.EnthalpyAtEntropy(low.EntropyAt(h1)) - h1;
        Assert.Equal(0.939, ideal / (h2 - h1), 0.0094);
    }

    /// <summary>Moran and Shapiro, Fundamentals of Engineering Thermodynamics, example 10.1: saturated vapour 0 °C,
    /// saturated liquid 26 °C, 0.08 kg/s: 1.4 kW, 3.67 tons, COP 9.24.</summary>
    [Fact]
    public void Ideal_cycle_of_Moran_and_Shapiro() =>
        Check(
            Ideal(_table.SaturationPressurePa(273.15), _table.SaturationPressurePa(299.15)),
            0.08,
            3.67 * 3516.85,
            1.4e3,
            9.24
        );

    /// <summary>Example 10.3: -10 °C to 9 bar at 80 % efficiency, liquid at 30 °C, 0.08 kg/s: 3.1 kW, 3.41 tons, COP
    /// 3.86.</summary>
    [Fact]
    public void Actual_cycle_of_Moran_and_Shapiro()
    {
        var ideal = Ideal(_table.SaturationPressurePa(263.15), 9e5);
        _table.Row(Math.Log(9e5), out var high);
        var subcooling = high.LiquidCp * (high.TemperatureK - 303.15);
        Check((ideal.Cooling + subcooling, ideal.Work / 0.8), 0.08, 3.41 * 3516.85, 3.1e3, 3.86);
    }

    private (double Cooling, double Work) Ideal(double lowPa, double highPa)
    {
        _table.Row(Math.Log(lowPa), out var low);
        _table.Row(Math.Log(highPa), out var high);
        return (
            low.VapourEnthalpy - high.LiquidEnthalpy,
            high.EnthalpyAtEntropy(low.VapourEntropy) - low.VapourEnthalpy
        );
    }

    private static void Check(
        (double Cooling, double Work) cycle,
        double flow,
        double coolingW,
        double workW,
        double cop
    )
    {
        Assert.Equal(coolingW, flow * cycle.Cooling, 0.01 * coolingW);
        Assert.Equal(workW, flow * cycle.Work, 0.01 * workW);
        Assert.Equal(cop, cycle.Cooling / cycle.Work, 0.01 * cop);
    }
}
