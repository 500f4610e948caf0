using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using Spectre.Console;

namespace Tightcold.Cli.Show;

/// <summary>Lines for a person and JSON for a machine.</summary>
internal static class Page
{
    private static readonly JsonSerializerOptions Indented = new()
    {
        WriteIndented = true,
        NewLine = "\n",
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    public static void Line(IAnsiConsole console, string text) => console.Write(new Text(text + "\n"));

    public static void Heading(IAnsiConsole console, string text) =>
        console.Write(new Text(text + "\n", new Style(decoration: Decoration.Bold)));

    /// <summary>Never wrapped, never coloured.</summary>
    public static void Machine(IAnsiConsole console, JsonNode node) => Raw(console, node.ToJsonString(Indented) + "\n");

    public static void Raw(IAnsiConsole console, string text)
    {
        console.Profile.Out.Writer.Write(text);
        console.Profile.Out.Writer.Flush();
    }

    public static Table Table(params string[] columns)
    {
        var table = new Table().Border(TableBorder.Minimal);
        foreach (var column in columns)
            table.AddColumn(new TableColumn(new Text(column)));
        return table;
    }

    public static void Row(this Table table, params string[] cells) =>
        table.AddRow(cells.Select(cell => new Text(cell)));
}
