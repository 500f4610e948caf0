using Tightcold.Quantities;

namespace Tightcold.Jobs.Fields;

/// <summary>Why an input was not taken: the field, the value as given, and what is allowed. One clear
/// sentence.</summary>
public sealed record InputProblem(string Field, string Value, Phrase Allowed)
{
    /// <summary>More of a refused value is not said again.</summary>
    private const int MostSaid = 80;

    public Phrase Sentence =>
        Value.Length == 0
            ? Phrase.Of($"{Field} is missing: {Allowed}.")
            : Phrase.Of($"{Field}: “{Quote.Beginning(Value, MostSaid)}” is not taken: {Allowed}.");

    public static InputProblem Of(string field, string value, Phrase.Handler allowed) =>
        new(field, value, Phrase.Of(allowed));
}
