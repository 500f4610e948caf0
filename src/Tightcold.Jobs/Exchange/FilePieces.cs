using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Json;

namespace Tightcold.Jobs.Exchange;

/// <summary>Files that are written piece by piece, because thousands of jobs are not to be in memory at once.</summary>
internal static class FilePieces
{
    /// <summary>A head, a few whole lists, and the beginning of the list of jobs.</summary>
    public static string Begin(
        string format,
        int version,
        params ReadOnlySpan<(string Name, IEnumerable<JsonNode> Items)> lists
    )
    {
        var text = new StringBuilder();
        text.Append(CultureInfo.InvariantCulture, $"{{\n\"format\": \"{format}\",\n\"version\": {version},\n");
        foreach (var (name, items) in lists)
            text.Append(CultureInfo.InvariantCulture, $"\"{name}\": {List(items)},\n");
        return text.Append("\"jobs\": [\n").ToString();
    }

    /// <summary>An item a line.</summary>
    public static string List(IEnumerable<JsonNode> items)
    {
        var lines = string.Join(",\n", items.Select(JobDocument.OnOneLine));
        return lines.Length == 0 ? "[]" : $"[\n{lines}\n]";
    }

    public static void CheckVersion(int version, int newest, List<InputProblem> problems)
    {
        var typed = version.ToString(CultureInfo.InvariantCulture);
        if (version > newest)
            problems.Add(
                InputProblem.Of(
                    "$.version",
                    typed,
                    $"this file was written by a newer Tightcold; this one reads version {newest}; nothing was changed "
                        + $"here"
                )
            );
        else if (version < 1)
            problems.Add(InputProblem.Of("$.version", typed, $"version {newest} is needed"));
    }
}
