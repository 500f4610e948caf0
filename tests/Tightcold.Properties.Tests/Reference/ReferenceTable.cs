using System.Globalization;

namespace Tightcold.Properties.Tests.Reference;

/// <summary>Rows of one of the tables under Reference/Tables, by column name.</summary>
internal sealed class ReferenceTable
{
    private readonly string[] _header;

    private ReferenceTable(string[] header, List<string[]> rows)
    {
        _header = header;
        Rows = rows;
    }

    public List<string[]> Rows { get; }

    public static ReferenceTable Open(string name)
    {
        using var stream = typeof(ReferenceTable).Assembly.GetManifestResourceStream(name)
            ?? throw new InvalidOperationException($"No reference table '{name}'.");
        using var reader = new StreamReader(stream);
        var lines = reader
            .ReadToEnd()
            .Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        return new ReferenceTable(lines[0].Split(','), [.. lines.Skip(1).Select(line => line.Split(','))]);
    }

    public string Text(string[] row, string column) => row[Array.IndexOf(_header, column)];

    public double Number(string[] row, string column) => double.Parse(Text(row, column), CultureInfo.InvariantCulture);

    public double? NumberOrNone(string[] row, string column) =>
        Text(row, column) is { Length: > 0 } ? Number(row, column) : null;
}
