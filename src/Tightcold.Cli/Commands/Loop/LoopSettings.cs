using System.ComponentModel;
using Tightcold.Cli.Wiring;

namespace Tightcold.Cli.Commands.Loop;

internal sealed class LoopSettings : DeskSettings
{
    [CommandArgument(0, "[name=value]")]
    [Description(
        "The day and the car: ambient is needed; humidity, engine-speed, altitude, air, charge; refrigerant, "
            + "compressor, device, label-charge, displacement, size."
    )]
    public string[]? Fields { get; init; }

    [CommandOption("--car <CAR>")]
    [Description("A car of the book, by name or the last digits of its id.")]
    public string? Car { get; init; }

    [CommandOption("--fault <KEY>")]
    [Description(
        "A fault to show beside the healthy car: KEY or KEY:SEVERITY (0 to 1), with + for more than one at a time. "
            + "May be given again."
    )]
    public string[]? Faults { get; init; }

    [CommandOption("--svg <FILE>")]
    [OutputFile]
    [Description(
        "Draw the cycle on the pressure-enthalpy diagram: the first fault's if one is given, else the healthy one."
    )]
    public string? Svg { get; init; }

    [CommandOption("--sweep <WHAT>")]
    [Description("Move one thing: charge (share of the label), ambient (°C), humidity (%), rpm, or a fault's key.")]
    public string? Sweep { get; init; }

    [CommandOption("--from <VALUE>")]
    [Description("Where the sweep begins; by what is moved unless given.")]
    public double? From { get; init; }

    [CommandOption("--to <VALUE>")]
    [Description("Where it ends.")]
    public double? To { get; init; }

    [CommandOption("--steps <COUNT>")]
    [Description("How many points; 41 unless given.")]
    public int Steps { get; init; } = 41;

    [CommandOption("--csv <FILE>")]
    [OutputFile]
    [Description("Where the sweep goes; loop-sweep.csv unless given.")]
    public string? Csv { get; init; }

    [CommandOption("--plot <FILE>")]
    [OutputFile]
    [Description("Draw the sweep as SVG.")]
    public string? Plot { get; init; }
}
