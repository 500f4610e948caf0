using System.Collections.Immutable;
using Tightcold.App.Desk;
using Tightcold.Jobs.Fields;
using Tightcold.Quantities;

namespace Tightcold.Cli.Wiring;

/// <summary>Ends a command because the input was refused.</summary>
internal sealed class RefusedException : Exception
{
    public RefusedException() { }

    public RefusedException(string message)
        : base(message) { }

    public RefusedException(string message, Exception inner)
        : base(message, inner) { }

    public RefusedException(IEnumerable<InputProblem> problems)
        : this("refused") => Problems = [.. problems];

    public RefusedException(string field, string value, Phrase allowed)
        : this([new InputProblem(field, value, allowed)]) { }

    public RefusedException(string field, string value, Phrase.Handler allowed)
        : this(field, value, Phrase.Of(allowed)) { }

    /// <summary>How a refusal calls the words as a whole.</summary>
    [Said]
    public const string CommandLine = "command line";

    public ImmutableArray<InputProblem> Problems { get; } = [];
}

/// <summary>Short ways from an outcome to its value.</summary>
internal static class OutcomeValue
{
    public static T Value<T>(this Outcome<T> outcome)
        where T : class => outcome.Value ?? throw new RefusedException(outcome.Problems);
}
