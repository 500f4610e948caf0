using System.ComponentModel;
using Tightcold.Cli.Wiring;

namespace Tightcold.Cli.Commands;

/// <summary>What every command takes.</summary>
internal class DeskSettings
{
    [CommandOption("--data <PLACE>")]
    [Description(
        "Folder of the data file, or a connection to a PostgreSQL database; else TIGHTCOLD_DATA, else your data folder."
    )]
    public string? Data { get; init; }

    [CommandOption("--json")]
    [Description("Answer as JSON for machines.")]
    public bool Json { get; init; }

    [CommandOption("--language <NAME>")]
    [Description("Language of the answer: de, en, es, fr or pl; remembered. Else that of the terminal.")]
    [Choices("de", "en", "es", "fr", "pl")]
    public string? Language { get; init; }

    [CommandOption("--units <SYSTEM>")]
    [Description("How numbers are shown; remembered.")]
    [Choices("metric", "us")]
    public string? Units { get; init; }
}
