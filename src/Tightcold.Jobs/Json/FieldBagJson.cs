using System.Text.Json;
using System.Text.Json.Nodes;
using Tightcold.Jobs.Fields;
using Tightcold.Quantities;

namespace Tightcold.Jobs.Json;

/// <summary>A bag of fields as JSON. Quantities: <c>{"value": 468843.0, "unit": "Pa gauge", "typed": "68
/// psig"}</c>.</summary>
public static class FieldBagJson
{
    public static JsonObject Write(FieldBag bag)
    {
        var result = new JsonObject();
        foreach (var (name, value) in bag)
        {
            result[name] = value switch
            {
                FieldValue.Quantity quantity => WriteQuantity(quantity),
                FieldValue.Number number => JsonValue.Create(number.Value),
                FieldValue.Text text => JsonValue.Create(text.Value),
                _ => throw new InvalidOperationException("unknown kind of value"),
            };
        }
        return result;
    }

    private static JsonObject WriteQuantity(FieldValue.Quantity quantity)
    {
        var node = new JsonObject
        {
            ["value"] = quantity.Value.Si,
            ["unit"] = SiUnit.Of(quantity.Value.Kind),
            ["typed"] = quantity.AsTyped,
        };
        if (quantity.PlusMinusSi is { } plusMinus)
            node["plus-minus"] = plusMinus;
        return node;
    }

    /// <summary>Reads and checks against the schema. Every problem names the path in the file.</summary>
    internal static FieldBag Read(JsonReaderAt at, Schema schema, List<InputProblem> problems)
    {
        var bag = FieldBag.Empty;
        if (!at.IsObject(problems))
            return bag;
        foreach (var property in at.Element.EnumerateObject())
        {
            var here = at.Child(property);
            if (schema.Find(property.Name) is not { } field)
            {
                problems.Add(InputProblem.Of(here.Path, property.Name, $"this field is not known here"));
            }
            else if (ReadValue(here, field, problems) is { } value)
            {
                if (bag[field.Name] is not null)
                    problems.Add(InputProblem.Of(here.Path, property.Name, $"a field may stand only once"));
                bag = bag.With(field.Name, value);
            }
        }
        foreach (var problem in schema.Check(bag))
            problems.Add(problem with { Field = $"{at.Path}.{problem.Field}" });
        return bag;
    }

    private static FieldValue? ReadValue(JsonReaderAt at, FieldSpec field, List<InputProblem> problems)
    {
        switch (field.Type)
        {
            case FieldType.Quantity type:
                if (!at.IsObject(problems))
                    return null;
                at.OnlyProperties(problems, "value", "unit", "typed", "plus-minus");
                var value = at.Number("value", problems);
                var unit = at.Text("unit", problems);
                var typed = at.Text("typed", problems);
                var plusMinus = at.Has("plus-minus") ? at.Number("plus-minus", problems) : null;
                if (value is null || unit is null || typed is null)
                    return null;
                if (unit != SiUnit.Of(type.Kind))
                {
                    problems.Add(
                        InputProblem.Of(
                            $"{at.Path}.unit",
                            unit,
                            $"“{Phrase.Verbatim(SiUnit.Of(type.Kind))}” is needed here"
                        )
                    );
                    return null;
                }
                return new FieldValue.Quantity(new Measure(type.Kind, value.Value), typed, plusMinus);
            case FieldType.Number:
                return
                    at.Element.ValueKind == JsonValueKind.Number
                    && at.Element.TryGetDouble(out var number)
                    && double.IsFinite(number)
                    ? new FieldValue.Number(number)
                    : at.Wrong(problems, $"a number is needed here");
            default:
                return at.Element.ValueKind == JsonValueKind.String
                    ? new FieldValue.Text(at.Element.GetString() ?? "")
                    : at.Wrong(problems, $"text in quotes is needed here");
        }
    }
}
