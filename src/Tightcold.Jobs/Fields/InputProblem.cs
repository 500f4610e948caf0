using Tightcold.Quantities;

namespace Tightcold.Jobs.Fields;

/// <summary>Why an input was not taken: the field, the value as given, and what is allowed. One clear
/// sentence.</summary>
public sealed record InputProblem(string Field, string Value, Phrase Allowed)
{
    /// <summary>More of a refused value is not said again.</summary>
    private const int MostSaid = 80;

    /// <summary>What is said for a value that nobody typed, such as a file; null: the value as given.</summary>
    public Phrase? Instead { get; init; }

    /// <summary>The value within a sentence: as it was given, never translated.</summary>
    public Phrase Given => Instead ?? Phrase.Verbatim(Quote.Beginning(Value, MostSaid));

    public Phrase Sentence =>
        Value.Length == 0
            ? Phrase.Of($"{Phrase.Verbatim(Field)} is missing: {Allowed}.")
            : Phrase.Of($"{Phrase.Verbatim(Field)}: “{Given}” is not taken: {Allowed}.");

    public static InputProblem Of(string field, string value, Phrase.Handler allowed) =>
        new(field, value, Phrase.Of(allowed));

    /// <summary>Of what nobody typed: in English the value, in every language the same said.</summary>
    public static InputProblem Of(string field, Phrase value, Phrase.Handler allowed)
    {
        ArgumentNullException.ThrowIfNull(value);
        return new(field, value.ToString(), Phrase.Of(allowed)) { Instead = value };
    }
}
