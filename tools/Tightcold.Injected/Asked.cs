using System.Collections.Immutable;
using System.Globalization;

namespace Tightcold.Injected;

/// <summary>What the command line asks for.</summary>
internal sealed record Asked
{
    public const string Usage =
        "[list | check] [--only 101,801] [--first] [--again] [--copy FOLDER] [--patience MINUTES] [--at-once NUMBER]";

    /// <summary>Prints the rows and ends.</summary>
    public bool List { get; init; }

    /// <summary>Looks whether each row still fits the sources, and ends.</summary>
    public bool Check { get; init; }

    public ImmutableArray<int> Only { get; init; } = [];

    /// <summary>Asks of each fault the first of its looks alone; what that does not catch stays untried.</summary>
    public bool First { get; init; }

    /// <summary>Tries those again that are known.</summary>
    public bool Again { get; init; }

    public string? Copy { get; init; }

    public TimeSpan Patience { get; init; } = TimeSpan.FromMinutes(10);

    public int AtOnce { get; init; } = 1;

    public static Asked? Of(string[] words) =>
        words switch
        {
            [] => new(),
            ["list", .. var rest] => Of(rest) is { } more ? more with { List = true } : null,
            ["check", .. var rest] => Of(rest) is { } more ? more with { Check = true } : null,
            ["--first", .. var rest] => Of(rest) is { } more ? more with { First = true } : null,
            ["--again", .. var rest] => Of(rest) is { } more ? more with { Again = true } : null,
            ["--only", var ids, .. var rest] => Of(rest) is { } more
                ? more with
                {
                    Only = [.. ids.Split(',').Select(Number)],
                }
                : null,
            ["--copy", var folder, .. var rest] => Of(rest) is { } more
                ? more with
                {
                    Copy = Path.GetFullPath(folder),
                }
                : null,
            ["--patience", var minutes, .. var rest] => Of(rest) is { } more
                ? more with
                {
                    Patience = TimeSpan.FromMinutes(Number(minutes)),
                }
                : null,
            ["--at-once", var number, .. var rest] => Of(rest) is { } more
                ? more with
                {
                    AtOnce = Number(number),
                }
                : null,
            _ => null,
        };

    private static int Number(string text) => int.Parse(text, CultureInfo.InvariantCulture);
}
