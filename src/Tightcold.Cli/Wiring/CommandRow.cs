using System.Collections.Immutable;
using Tightcold.Cli.Commands;
using Tightcold.Jobs.Fields;
using Tightcold.Quantities;

namespace Tightcold.Cli.Wiring;

/// <summary>One command: how it is called, what it does in a sentence, and who carries it out. What it takes stands at
/// its settings.</summary>
internal sealed record CommandRow(
    string Path,
    [Said] string Says,
    Type Settings,
    Func<Surroundings, DeskSettings, CancellationToken, Task<int>> Run,
    ImmutableArray<string> Examples
)
{
    private CommandWords? words;

    /// <summary>The fields that its <c>name=value</c> words may name, by the words typed so far; null without
    /// any.</summary>
    public Func<IReadOnlyList<string>, Schema?> Fields { get; init; } = _ => null;

    /// <summary>What follows the sentence in the help: a paragraph, or nothing.</summary>
    [Said]
    public string More { get; init; } = "";

    public CommandWords Words => words ??= CommandWords.Of(Settings);

    public static CommandRow Of<TSettings>(
        Func<Surroundings, Command<TSettings>> make,
        string path,
        [Said] string says,
        params string[] examples
    )
        where TSettings : DeskSettings, new() =>
        new(
            path,
            says,
            typeof(TSettings),
            (surroundings, settings, cancellation) =>
                make(surroundings).ExecuteAsync((TSettings)settings, cancellation),
            [.. examples]
        );
}
