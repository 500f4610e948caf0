using Spectre.Console;
using Tightcold.App.Desk;
using Tightcold.Tongues;

namespace Tightcold.Cli.Wiring;

/// <summary>What the program touches outside itself, so that a test can hand in its own.</summary>
public sealed record Surroundings(
    IAnsiConsole Out,
    IAnsiConsole Trouble,
    TextReader In,
    TimeProvider Clock,
    IIdSource Ids
)
{
    /// <summary>The language of the terminal.</summary>
    public Tongue Tongue { get; init; } = AllTongues.English;

    /// <summary>Stands for a file name of <c>-</c>.</summary>
    internal const string StandardInput = "/dev/stdin";
}
