using System.Text.Json;
using Tightcold.Jobs.Fields;
using Tightcold.Quantities;

namespace Tightcold.Jobs.Json;

/// <summary>A place in a JSON file that knows its path, so that every refusal can name it.</summary>
internal readonly record struct JsonReaderAt(JsonElement Element, string Path)
{
    public JsonReaderAt Child(JsonProperty property) => new(property.Value, $"{Path}.{property.Name}");

    public bool Has(string name) => Element.ValueKind == JsonValueKind.Object && Element.TryGetProperty(name, out _);

    public JsonReaderAt? Child(string name, List<InputProblem> problems)
    {
        if (Element.ValueKind == JsonValueKind.Object && Element.TryGetProperty(name, out var value))
            return new(value, $"{Path}.{name}");
        problems.Add(InputProblem.Of($"{Path}.{name}", "", $"this field is needed"));
        return null;
    }

    public bool IsObject(List<InputProblem> problems)
    {
        if (Element.ValueKind == JsonValueKind.Object)
            return true;
        Wrong(problems, $"an object in braces is needed here");
        return false;
    }

    public void OnlyProperties(List<InputProblem> problems, params ReadOnlySpan<string> known)
    {
        if (Element.ValueKind != JsonValueKind.Object)
            return;
        foreach (var property in Element.EnumerateObject())
            if (!known.Contains(property.Name))
                problems.Add(
                    InputProblem.Of($"{Path}.{property.Name}", property.Name, $"this field is not known here")
                );
    }

    public IEnumerable<JsonReaderAt> Items(string name, List<InputProblem> problems)
    {
        if (Child(name, problems) is not { } child)
            return [];
        if (child.Element.ValueKind != JsonValueKind.Array)
        {
            child.Wrong(problems, $"a list in brackets is needed here");
            return [];
        }
        return
        [
            .. child.Element.EnumerateArray().Select((item, index) => new JsonReaderAt(item, $"{child.Path}[{index}]")),
        ];
    }

    public string? Text(string name, List<InputProblem> problems)
    {
        if (Child(name, problems) is not { } child)
            return null;
        if (child.Element.ValueKind == JsonValueKind.String)
            return child.Element.GetString();
        child.Wrong(problems, $"text in quotes is needed here");
        return null;
    }

    public string? OptionalText(string name, List<InputProblem> problems) => Has(name) ? Text(name, problems) : null;

    public double? Number(string name, List<InputProblem> problems)
    {
        if (Child(name, problems) is not { } child)
            return null;
        if (
            child.Element.ValueKind == JsonValueKind.Number
            && child.Element.TryGetDouble(out var number)
            && double.IsFinite(number)
        )
            return number;
        child.Wrong(problems, $"a finite number is needed here");
        return null;
    }

    public int? Whole(string name, List<InputProblem> problems)
    {
        if (Child(name, problems) is not { } child)
            return null;
        if (child.Element.ValueKind == JsonValueKind.Number && child.Element.TryGetInt32(out var number))
            return number;
        child.Wrong(problems, $"a whole number is needed here");
        return null;
    }

    public Guid? Id(string name, List<InputProblem> problems)
    {
        if (Text(name, problems) is not { } text)
            return null;
        if (Guid.TryParseExact(text, "D", out var id))
            return id;
        problems.Add(InputProblem.Of($"{Path}.{name}", text, $"an id of 32 hexadecimal digits with hyphens is needed"));
        return null;
    }

    /// <summary>The id that this place itself holds.</summary>
    public Guid? Id(List<InputProblem> problems)
    {
        if (Element.ValueKind == JsonValueKind.String && Guid.TryParseExact(Element.GetString(), "D", out var id))
            return id;
        Wrong(problems, $"an id of 32 hexadecimal digits with hyphens is needed");
        return null;
    }

    public DateTimeOffset? Time(string name, List<InputProblem> problems)
    {
        if (Child(name, problems) is not { } child)
            return null;
        if (child.Element.ValueKind == JsonValueKind.String && child.Element.TryGetDateTimeOffset(out var time))
            return time;
        child.Wrong(problems, $"a time such as 2031-07-04T14:30:00+02:00 is needed here");
        return null;
    }

    public FieldValue? Wrong(List<InputProblem> problems, Phrase.Handler needed)
    {
        var raw = Element.ValueKind == JsonValueKind.Undefined ? "" : Element.GetRawText();
        problems.Add(InputProblem.Of(Path, Quote.Beginning(raw, 40), needed));
        return null;
    }
}
