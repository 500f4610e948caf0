using System.Globalization;
using Tightcold.App.Typed;
using Tightcold.App.Units;
using Tightcold.Jobs.Fields;
using Tightcold.Quantities;
using Tightcold.Tongues;

namespace Tightcold.App.Desk;

/// <summary>Turns typed text into fields by the schema. Blank means not filled. Reading does not stop at the first
/// trouble: a person gets all reasons at once.</summary>
public static class FieldReader
{
    public static (FieldBag Bag, IReadOnlyList<InputProblem> Problems) Read(
        Schema schema,
        IReadOnlyDictionary<string, string> texts,
        CultureInfo culture
    ) => Read(schema, FieldBag.Empty, texts, culture);

    /// <summary>Changes <paramref name="start"/>: a given text replaces the field, a blank one empties it.</summary>
    public static (FieldBag Bag, IReadOnlyList<InputProblem> Problems) Read(
        Schema schema,
        FieldBag start,
        IReadOnlyDictionary<string, string> texts,
        CultureInfo culture
    )
    {
        var bag = start;
        var problems = new List<InputProblem>();
        foreach (var (name, text) in texts)
        {
            if (schema.Find(name) is not { } field)
            {
                problems.Add(
                    new InputProblem(
                        name,
                        text.Length == 0 ? name : text,
                        schema.Fields.Length == 0
                            ? Phrase.Of($"“{Phrase.Verbatim(schema.Name)}” has no fields")
                            : Phrase.Of(
                                $"“{Phrase.Verbatim(schema.Name)}” has no such field; "
                                    + $"{Nearest.Hint(name, Names(schema))}it has "
                                    + $"{Phrase.Verbatim(string.Join(", ", Names(schema)))}"
                            )
                    )
                );
            }
            else if (string.IsNullOrWhiteSpace(text))
            {
                bag = bag.Without(name);
            }
            else
            {
                var (value, problem) = ReadOne(field, text, culture);
                if (problem is not null)
                    problems.Add(problem);
                if (value is not null)
                    bag = bag.With(name, value);
            }
        }
        // Where reading a text failed, "is missing" would be a second complaint about the same thing.
        problems.AddRange(schema.Check(bag).Where(found => problems.All(known => known.Field != found.Field)).ToList());
        return (bag, problems);
    }

    private static IEnumerable<string> Names(Schema schema) => schema.Fields.Select(field => field.Name);

    private static (FieldValue? Value, InputProblem? Problem) ReadOne(FieldSpec field, string text, CultureInfo culture)
    {
        switch (field.Type)
        {
            case FieldType.Quantity:
                return UnitParser.Parse(field, text, culture);
            case FieldType.Number:
                var read = NumberText.Read(text, culture);
                return read.Value is { } number && read.Rest.Trim().Length == 0
                    ? (new FieldValue.Number(number), null)
                    : (
                        null,
                        new InputProblem(
                            field.Name,
                            text.Trim(),
                            read.TwoWays ?? Phrase.Words("a plain number without a unit is needed here")
                        )
                    );
            case FieldType.Choice choice:
                if (
                    Array.Find(choice.Options, one =>
                        Key(one.Key) == Key(text)
                        || Key(one.Label) == Key(text)
                        || Key(Say.It(one.Label, field.Name)) == Key(text)
                    ) is
                    { Key: not null } known
                )
                    return (new FieldValue.Text(known.Key), null);
                return Nearest.Of(text, choice.Words) is { } near
                    ? (
                        null,
                        InputProblem.Of(
                            field.Name,
                            text.Trim(),
                            $"perhaps {Phrase.Verbatim(near)} is meant; one of "
                                + $"{Phrase.Verbatim(string.Join(", ", choice.Words))} is allowed"
                        )
                    )
                    : (new FieldValue.Text(text.Trim()), null);
            default:
                return (new FieldValue.Text(text.Trim()), null);
        }
    }

    /// <summary>“r134a”, “R-134a” and “uv-lamp”, “UV lamp” are the same choice.</summary>
    private static string Key(string word) => string.Concat(word.Where(char.IsLetterOrDigit)).ToLowerInvariant();
}
