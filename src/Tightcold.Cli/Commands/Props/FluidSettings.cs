using System.ComponentModel;
using Tightcold.Cli.Wiring;

namespace Tightcold.Cli.Commands.Props;

internal sealed class FluidSettings : DeskSettings
{
    [CommandArgument(0, "<NAME>")]
    [Description("R134a, R1234yf, R152a, R744, R12, Water, Nitrogen or Air.")]
    public string Name { get; init; } = "";

    [CommandOption("--step <DEGREES>")]
    [Description("Step of the table; 10 °C or 20 °F unless given.")]
    public double? Step { get; init; }

    [CommandOption("--svg <FILE>")]
    [OutputFile]
    [Description("Draw the pressure-enthalpy diagram there.")]
    public string? Svg { get; init; }

    [CommandOption("--cycle <POINTS>")]
    [Description(
        "Corners for the diagram, pressure and enthalpy in its units: \"1:3.0,400;2:15,440;3:15,260;4:3.0,260\"."
    )]
    public string? Cycle { get; init; }
}
