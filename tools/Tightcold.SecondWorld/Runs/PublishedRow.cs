using System.Globalization;

namespace Tightcold.SecondWorld.Runs;

/// <summary>A published reading; what the text does not say is null or empty.</summary>
internal sealed record PublishedRow(IReadOnlyDictionary<string, string> Cells)
{
    public string Id => this["row"];

    public string Flag => this["flag"];

    private string this[string name] => Cells[name];

    public string Text(string name) => this[name];

    public double? Number(string name) =>
        double.TryParse(this[name], NumberStyles.Float, CultureInfo.InvariantCulture, out var number) ? number : null;

    /// <summary>A printed range by its first part of the name, such as "low" for low_from_bar and low_to_bar.</summary>
    public (double? From, double? To) Range(string name)
    {
        var unit =
            Cells.ContainsKey(name + "_from_bar") ? "_bar"
            : Cells.ContainsKey(name + "_from_c") ? "_c"
            : "";
        return (Number($"{name}_from{unit}"), Number($"{name}_to{unit}"));
    }

    /// <summary>
    /// Middle of a printed range; the one limit where only one is printed and that is a fair reading.
    /// </summary>
    public double? Middle(string name)
    {
        var (from, to) = Range(name);
        return from is { } a && to is { } b ? 0.5 * (a + b) : null;
    }

    public static List<PublishedRow> Read()
    {
        using var stream = typeof(PublishedRow).Assembly.GetManifestResourceStream("Published/readings.csv")
            ?? throw new InvalidOperationException("Published/readings.csv is not embedded");
        using var reader = new StreamReader(stream);
        var names = Cut(reader.ReadLine()!);
        var rows = new List<PublishedRow>();
        while (reader.ReadLine() is { } line)
        {
            var cells = Cut(line);
            rows.Add(
                new(names.Select((name, i) => (name, cells[i])).ToDictionary(pair => pair.name, pair => pair.Item2))
            );
        }
        return rows;
    }

    /// <summary>Cells of a line; a cell may stand in quotation marks.</summary>
    private static List<string> Cut(string line)
    {
        var cells = new List<string> { "" };
        var quoted = false;
        foreach (var letter in line)
        {
            if (letter == '"')
                quoted = !quoted;
            else if (letter == ',' && !quoted)
                cells.Add("");
            else
                cells[^1] += letter;
        }
        return cells;
    }
}
