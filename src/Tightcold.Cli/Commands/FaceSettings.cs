using System.ComponentModel;
using Spectre.Console.Cli;

namespace Tightcold.Cli.Commands;

internal sealed class JobPrintSettings : JobSettings
{
    [CommandOption("--to|--output <FILE>")]
    [Description(
        "File to write; job-NUMBER.html in this folder unless given. A name that ends in .pdf is printed by an installed browser."
    )]
    public string? To { get; init; }

    [CommandOption("--paper <NAME>")]
    [Description("A4 or Letter, for a PDF; A4 unless given.")]
    public string? Paper { get; init; }
}

internal sealed class DemoSettings : DeskSettings
{
    [CommandOption("--to|--output <FILE>")]
    [Description("Where the card goes; tightcold-demo.html in this folder unless given.")]
    public string? To { get; init; }
}
