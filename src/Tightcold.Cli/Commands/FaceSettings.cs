using System.ComponentModel;
using Tightcold.Cli.Wiring;

namespace Tightcold.Cli.Commands;

internal sealed class JobPrintSettings : JobSettings
{
    [CommandOption("--to|--output <FILE>")]
    [OutputFile]
    [Description(
        "File to write; job-NUMBER.html in this folder unless given. A name that ends in .pdf is printed by an "
            + "installed browser."
    )]
    public string? To { get; init; }

    [CommandOption("--paper <NAME>")]
    [Description("For a PDF; A4 unless given.")]
    [Choices("A4", "Letter")]
    public string? Paper { get; init; }
}

internal sealed class DemoSettings : DeskSettings
{
    [CommandOption("--to|--output <FILE>")]
    [OutputFile]
    [Description("Where the card goes; tightcold-demo.html in this folder unless given.")]
    public string? To { get; init; }
}
