using System.ComponentModel;
using Spectre.Console.Cli;

namespace Tightcold.Cli.Commands.Loop;

internal sealed class LoopSettings : DeskSettings
{
    [CommandArgument(0, "[name=value]")]
    [Description(
        "The day and the car: ambient is needed; humidity, engine-speed, altitude, air, charge; refrigerant, compressor, device, label-charge, displacement, size."
    )]
    public string[]? Fields { get; init; }

    [CommandOption("--car <CAR>")]
    [Description("A car of the book, by name or the last digits of its id.")]
    public string? Car { get; init; }

    [CommandOption("--fault <KEY>")]
    [Description(
        "A fault to show beside the healthy car: KEY or KEY:SEVERITY (0 to 1), with + for more than one at a time. May be given again."
    )]
    public string[]? Faults { get; init; }

    [CommandOption("--svg <FILE>")]
    [Description(
        "Draw the cycle on the pressure-enthalpy diagram: the first fault's if one is given, else the healthy one."
    )]
    public string? Svg { get; init; }

    [CommandOption("--sweep <WHAT>")]
    [Description("Move one thing: charge (share of the label), ambient (°C), humidity (%), rpm, or a fault's key.")]
    public string? Sweep { get; init; }

    [CommandOption("--from <VALUE>")]
    public double? From { get; init; }

    [CommandOption("--to <VALUE>")]
    public double? To { get; init; }

    [CommandOption("--steps <COUNT>")]
    public int Steps { get; init; } = 41;

    [CommandOption("--csv <FILE>")]
    [Description("Where the sweep goes; loop-sweep.csv unless given.")]
    public string? Csv { get; init; }

    [CommandOption("--plot <FILE>")]
    [Description("Draw the sweep as SVG.")]
    public string? Plot { get; init; }

    [CommandOption("--soak <COUNT>")]
    [Description("Ask that many random questions over the model's whole range and count what comes of them.")]
    public int? Soak { get; init; }

    [CommandOption("--seed <NUMBER>")]
    public int Seed { get; init; } = 1;
}
