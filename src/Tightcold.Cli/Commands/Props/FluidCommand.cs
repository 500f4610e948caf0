using System.Globalization;
using System.Text.Json.Nodes;
using Tightcold.App.Diagrams;
using Tightcold.App.Units;
using Tightcold.Cli.Show;
using Tightcold.Cli.Wiring;
using Tightcold.Properties;
using Tightcold.Tongues;

namespace Tightcold.Cli.Commands.Props;

/// <summary>Prints a fluid's saturation table and draws its pressure-enthalpy diagram.</summary>
internal sealed class FluidCommand(Surroundings surroundings) : Command<FluidSettings>
{
    public override async Task<int> ExecuteAsync(FluidSettings settings, CancellationToken cancellation)
    {
        var fluid = FluidNames.Find(settings.Name);
        var system = settings.Units == "us" ? UnitSystem.Us : UnitSystem.Metric;
        var units = DiagramUnits.For(system);
        var step = settings.Step ?? (system == UnitSystem.Us ? 20 : 10);
        if (!(step >= 0.1 && step <= 1000))
            throw new RefusedException(
                "step",
                step.ToString(CultureInfo.InvariantCulture),
                "0.1 to 1000 degrees is allowed"
            );
        var cycle = CycleText.Read(settings.Cycle, units, fluid);
        if (settings.Svg is not null)
        {
            var diagram = new PressureEnthalpyDiagram(fluid, units, cycle);
            await Files.WriteAsync("--svg", settings.Svg, diagram.Svg(), cancellation).ConfigureAwait(false);
            if (!settings.Json)
                Page.Raw(surroundings.Out, diagram.Text() + Say.It($"drawn to {settings.Svg}") + "\n");
        }

        if (settings.Json)
            Page.Machine(surroundings.Out, Machine(fluid, units, step, settings.Svg));
        else
            Print(fluid, units, step);
        return ExitCode.Done;
    }

    private static JsonObject Machine(Fluid fluid, DiagramUnits units, double step, string? svg)
    {
        var rows = fluid.Fast.HasSaturation ? SaturationTable.Rows(fluid, units, step) : [];
        return new JsonObject
        {
            ["fluid"] = fluid.Name,
            ["equation"] = fluid.EquationKey,
            ["critical-temperature-k"] = fluid.CriticalTemperatureK,
            ["critical-pressure-pa"] = fluid.CriticalPressurePa,
            ["saturation"] = new JsonArray([
                .. rows.Select(row => new JsonObject
                {
                    ["temperature-k"] = row.TemperatureK,
                    ["pressure-pa"] = row.PressurePa,
                    ["liquid-density-kg-per-m3"] = row.LiquidDensityKgPerM3,
                    ["vapour-density-kg-per-m3"] = row.VapourDensityKgPerM3,
                    ["liquid-enthalpy-j-per-kg"] = row.LiquidEnthalpyJPerKg,
                    ["vapour-enthalpy-j-per-kg"] = row.VapourEnthalpyJPerKg,
                    ["liquid-entropy-j-per-kg-k"] = row.LiquidEntropyJPerKgK,
                    ["vapour-entropy-j-per-kg-k"] = row.VapourEntropyJPerKgK,
                }),
            ]),
            ["svg"] = svg,
        };
    }

    private void Print(Fluid fluid, DiagramUnits units, double step)
    {
        var equation = fluid.Sources.First(source => source.Part == "equation_of_state");
        Page.Heading(
            surroundings.Out,
            Say.It($"{fluid.DisplayName} ({fluid.ChemicalName}), by {equation.Authors}, {equation.Year}")
        );
        Page.Line(surroundings.Out, Say.It(fluid.ReferenceState));
        if (!fluid.Fast.HasSaturation)
        {
            Page.Line(
                surroundings.Out,
                Say.It("No saturation line in the range of vehicles: a gas at every temperature there.")
            );
            return;
        }

        var ambient = StandardAtmosphere.PressurePa(0);
        Page.Line(surroundings.Out, Say.It("Saturation; gauge pressures against 1013.25 hPa, sea level."));
        var table = new TextTable(
            units.Temperature,
            UnitWords.Of(units.Pressure, Say.Tongue),
            UnitWords.Of(units.GaugePressure, Say.Tongue),
            Say.It($"liquid {units.Density}"),
            Say.It($"vapour {units.Density}"),
            Say.It($"liquid {units.Enthalpy}"),
            Say.It($"vapour {units.Enthalpy}"),
            Say.It($"vapour {units.Entropy}")
        );
        foreach (var row in SaturationTable.Rows(fluid, units, step))
        {
            table.Row(
                Show(units.TemperatureFromK(row.TemperatureK), "0.##"),
                Show(units.PressureFromPa(row.PressurePa), "0.000"),
                Show(units.PressureFromPa(row.PressurePa - ambient), "0.000"),
                Show(units.DensityFromKgPerM3(row.LiquidDensityKgPerM3), "0.00"),
                Show(units.DensityFromKgPerM3(row.VapourDensityKgPerM3), "0.000"),
                Show(units.EnthalpyFromJPerKg(row.LiquidEnthalpyJPerKg), "0.00"),
                Show(units.EnthalpyFromJPerKg(row.VapourEnthalpyJPerKg), "0.00"),
                Show(units.EntropyFromJPerKgK(row.VapourEntropyJPerKgK), "0.0000")
            );
        }

        table.Show(surroundings.Out);
    }

    private static string Show(double value, string format) => value.ToString(format, Say.Tongue.Culture);
}
