using System.Xml.Linq;
using Tightcold.App.Diagrams;
using Tightcold.Properties;

namespace Tightcold.App.Tests.Diagrams;

public sealed class DiagramTests
{
    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";

    public static TheoryData<string> Fluids => [.. FluidCatalog.Names];

    [Theory]
    [MemberData(nameof(Fluids))]
    public void The_diagram_of_every_fluid_is_a_titled_drawing_inside_its_frame(string name)
    {
        var fluid = FluidCatalog.Get(name);
        foreach (var units in (DiagramUnits[])[DiagramUnits.Metric, DiagramUnits.Us])
        {
            var drawing = XDocument.Parse(new PressureEnthalpyDiagram(fluid, units, []).Svg()).Root!;
            Assert.Contains(fluid.DisplayName, drawing.Element(Svg + "title")!.Value, StringComparison.Ordinal);
            Assert.Contains(units.Pressure, drawing.Element(Svg + "desc")!.Value, StringComparison.Ordinal);
            Assert.DoesNotContain("NaN", drawing.ToString(), StringComparison.Ordinal);
            var curves = drawing
                .Elements(Svg + "path")
                .Where(path => (string?)path.Attribute("class") is "dome" or "isotherm" or "isentrope")
                .ToList();
            Assert.True(curves.Count >= 5);
            Assert.Equal(fluid.Fast.HasSaturation, curves.Any(path => (string?)path.Attribute("class") == "dome"));
            foreach (var (x, y) in curves.SelectMany(path => Points((string)path.Attribute("d")!)))
            {
                Assert.InRange(x, 69.9, 780.1);
                Assert.InRange(y, 39.9, 500.1);
            }
        }
    }

    [Fact]
    public void A_cycle_is_drawn_closed_and_told_in_words()
    {
        var fluid = FluidCatalog.Get("R134a");
        CyclePoint[] cycle =
        [
            new("suction", 3e5, 405e3),
            new("discharge", 15e5, 445e3),
            new("liquid line", 15e5, 260e3),
            new("evaporator <in>", 3e5, 260e3),
        ];
        var diagram = new PressureEnthalpyDiagram(fluid, DiagramUnits.Metric, cycle);
        var drawing = XDocument.Parse(diagram.Svg()).Root!;
        var path = Points(
                (string)
                    drawing
                        .Elements(Svg + "path")
                        .Single(element => (string?)element.Attribute("class") == "cycle")
                        .Attribute("d")!
            )
            .ToList();
        Assert.Equal(5, path.Count);
        Assert.Equal(path[0], path[^1]);
        Assert.Equal(4, drawing.Elements(Svg + "circle").Count());
        var text = diagram.Text();
        Assert.Contains("suction: 3.00 bar abs, 405.0 kJ/kg", text, StringComparison.Ordinal);
        Assert.Contains("% vapour", text, StringComparison.Ordinal);
        Assert.Contains("evaporator <in>", text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_saturation_table_runs_in_round_degrees_of_the_reader()
    {
        var fluid = FluidCatalog.Get("R134a");
        var metric = SaturationTable.Rows(fluid, DiagramUnits.Metric, 10).ToList();
        Assert.Equal(15, metric.Count);
        Assert.Equal(233.15, metric[0].TemperatureK, 1e-9);
        // Published saturation pressure at 0 degC: 2.928 bar (handbook, from memory).
        Assert.Equal(2.928e5, metric.Single(row => Math.Abs(row.TemperatureK - 273.15) < 1e-6).PressurePa, 50.0);
        var us = SaturationTable.Rows(fluid, DiagramUnits.Us, 20).ToList();
        Assert.Equal(-40, DiagramUnits.Us.TemperatureFromK(us[0].TemperatureK), 1e-6);
        Assert.Throws<ArgumentOutOfRangeException>(() => SaturationTable.Rows(fluid, DiagramUnits.Metric, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            SaturationTable.Rows(FluidCatalog.Get("Air"), DiagramUnits.Metric, 10)
        );
    }

    private static IEnumerable<(double X, double Y)> Points(string path) =>
        path.Split(['M', 'L'], StringSplitOptions.RemoveEmptyEntries)
            .Select(pair => pair.Split(' '))
            .Select(pair =>
                (
                    double.Parse(pair[0], System.Globalization.CultureInfo.InvariantCulture),
                    double.Parse(pair[1], System.Globalization.CultureInfo.InvariantCulture)
                )
            );
}
