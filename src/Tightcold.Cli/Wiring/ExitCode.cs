namespace Tightcold.Cli.Wiring;

/// <summary>What the program tells the shell; documented in docs/commands.md.</summary>
internal static class ExitCode
{
    public const int Done = 0;

    /// <summary>The input was refused, with the reasons; nothing was changed.</summary>
    public const int Refused = 1;

    /// <summary>The machine or the data file is in trouble.</summary>
    public const int Trouble = 2;
}
