using System.ComponentModel;
using Tightcold.Cli.Wiring;

namespace Tightcold.Cli.Commands.Props;

internal sealed class PropsSettings : DeskSettings
{
    [CommandOption("--fluid <NAME>")]
    [Description("R134a, R1234yf, R152a, R744, R12, Water, Nitrogen or Air.")]
    public string? Fluid { get; init; }

    [CommandOption("--layer <LAYER>")]
    [Description("The equations, or tables made from them; reference unless given.")]
    [Choices("reference", "fast")]
    public string? Layer { get; init; }

    [CommandOption("--in <FILE>")]
    [Description(
        "CSV of state points: a header naming two quantities with units, e.g. pressure_bar,enthalpy_kj_per_kg."
    )]
    public string? In { get; init; }

    [CommandOption("--out <FILE>")]
    [OutputFile]
    [Description("Where the results go, one row for each row of the input.")]
    public string? To { get; init; }
}
