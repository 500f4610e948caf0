using System.Collections.Immutable;
using Tightcold.Quantities;

namespace Tightcold.Jobs.Fields;

/// <summary>A list of fields, and the check of a bag against it.</summary>
public sealed class Schema
{
    private readonly ImmutableDictionary<string, FieldSpec> byName;

    public Schema(string name, [Said] string label, params FieldSpec[] fields)
    {
        Name = name;
        Label = label;
        Fields = [.. fields];
        byName = fields.ToImmutableDictionary(field => field.Name, StringComparer.Ordinal);
    }

    /// <summary>Stable name in files and on the command line.</summary>
    public string Name { get; }

    /// <summary>What a person reads.</summary>
    [Said]
    public string Label { get; }

    public ImmutableArray<FieldSpec> Fields { get; }

    /// <summary>What a form asks for: all but what is retired.</summary>
    public ImmutableArray<FieldSpec> Asked => [.. Fields.Where(one => !one.Retired)];

    public FieldSpec? Find(string fieldName) => byName.GetValueOrDefault(fieldName);

    /// <summary>Everything wrong with the bag, in the order of the fields; empty when it may pass.</summary>
    public IReadOnlyList<InputProblem> Check(FieldBag bag)
    {
        var problems = new List<InputProblem>();
        foreach (var (name, _) in bag)
            if (Find(name) is null)
                problems.Add(
                    InputProblem.Of(
                        name,
                        name,
                        $"this field is not known here; known are "
                            + $"{Phrase.Verbatim(string.Join(", ", Fields.Select(field => field.Name)))}"
                    )
                );
        foreach (var field in Fields)
        {
            if (bag[field.Name] is not { } value)
            {
                if (field.Required)
                    problems.Add(InputProblem.Of(field.Name, "", $"{Phrase.Within(field.Label)} is needed here"));
            }
            else if (CheckValue(field, value) is { } problem)
            {
                problems.Add(problem);
            }
        }
        return problems;
    }

    private static InputProblem? CheckValue(FieldSpec field, FieldValue value)
    {
        switch (field.Type, value)
        {
            case (FieldType.Quantity type, FieldValue.Quantity quantity):
                if (quantity.Value.Kind != type.Kind)
                    return InputProblem.Of(
                        field.Name,
                        quantity.AsTyped,
                        $"another kind of quantity is needed here ({Phrase.Verbatim(type.Kind.ToString())})"
                    );
                if (!(quantity.Value.Si >= type.MinSi && quantity.Value.Si <= type.MaxSi))
                    return new(
                        field.Name,
                        quantity.AsTyped,
                        Phrase.Of(
                            $"{(new Measure(type.Kind, type.MinSi), new Measure(type.Kind, type.MaxSi))} is allowed"
                        )
                    );
                return quantity.PlusMinusSi is { } plusMinus && !(plusMinus >= 0 && double.IsFinite(plusMinus))
                    ? InputProblem.Of(field.Name, quantity.AsTyped, $"the uncertainty after ± must be zero or more")
                    : null;
            case (FieldType.Number type, FieldValue.Number number):
                return number.Value >= type.Min && number.Value <= type.Max
                    ? null
                    : InputProblem.Of(
                        field.Name,
                        Plain(number.Value),
                        $"{Phrase.Verbatim(Plain(type.Min))} to {Phrase.Verbatim(Plain(type.Max))} is allowed"
                    );
            case (FieldType.Choice type, FieldValue.Text text):
                return type.Words.Contains(text.Value, StringComparer.Ordinal)
                    ? null
                    : InputProblem.Of(
                        field.Name,
                        text.Value,
                        $"one of {Phrase.Verbatim(string.Join(", ", Near(type, text.Value)))} is allowed"
                    );
            case (FieldType.Text type, FieldValue.Text text):
                return text.Value.Length <= type.MaxLength
                    ? null
                    : InputProblem.Of(
                        field.Name,
                        Quote.Beginning(text.Value, 20),
                        $"at most {type.MaxLength} characters are allowed"
                    );
            case (FieldType.Spot or FieldType.Container, FieldValue.Text text):
                return text.Value.Length is > 0 and <= 80
                    ? null
                    : InputProblem.Of(field.Name, text.Value, $"a name of 1 to 80 characters is allowed");
            case (FieldType.Spots, FieldValue.Text text):
                return text.Value.Length is > 0 and <= 2000
                    ? null
                    : InputProblem.Of(field.Name, "", $"names of spots, 1 to 2000 characters together, are allowed");
            default:
                return new(field.Name, value.ToString(), Takes(field.Type));
        }
    }

    /// <summary>Of a long list those that share a word with what was typed; where none does, all.</summary>
    private static string[] Near(FieldType.Choice type, string typed)
    {
        const int Long = 12;
        if (type.Words.Length <= Long)
            return type.Words;
        var words = typed.Split(' ', StringSplitOptions.RemoveEmptyEntries).Where(word => word.Length > 2).ToArray();
        var near = type
            .Words.Where(known =>
                known.Split(' ').Any(part => words.Contains(part.Trim(','), StringComparer.OrdinalIgnoreCase))
            )
            .ToArray();
        return near.Length == 0 ? type.Words : near;
    }

    private static string Plain(double value) => value.ToString("R", System.Globalization.CultureInfo.InvariantCulture);

    private static Phrase Takes(FieldType type) =>
        type switch
        {
            FieldType.Quantity quantity => Phrase.Of(
                $"this field takes a number with its unit ({Phrase.Verbatim(quantity.Kind.ToString())})"
            ),
            FieldType.Number => Phrase.Words("this field takes a plain number"),
            FieldType.Choice choice => Phrase.Of(
                $"this field takes one of {Phrase.Verbatim(string.Join(", ", choice.Words))}"
            ),
            _ => Phrase.Words("this field takes text"),
        };
}
