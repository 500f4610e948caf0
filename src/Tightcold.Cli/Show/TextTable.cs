using System.Text;
using Spectre.Console;
using Tightcold.Tongues;

namespace Tightcold.Cli.Show;

/// <summary>Rows and columns. Where the window is too narrow for whole words, each row becomes a few lines
/// instead.</summary>
internal sealed class TextTable(params string[] columns)
{
    private const string Between = "  ";
    private readonly List<string[]> rows = [];

    public void Row(params string[] cells) => rows.Add(cells);

    public void Show(IAnsiConsole console, int indent = 0)
    {
        var room = console.Profile.Width - indent;
        var text = Widths(room - 1) is { } widths ? Table(widths) : Stacked(room);
        var before = new string(' ', indent);
        foreach (var line in text.TrimEnd('\n').Split('\n'))
            Page.Raw(console, (before + line).TrimEnd() + "\n");
    }

    /// <summary>As wide as the widest cell while there is room; else the widest columns give, down to their longest
    /// word.</summary>
    private int[]? Widths(int room)
    {
        var all = rows.Prepend(columns).ToList();
        var wide = columns.Select((_, i) => all.Max(row => Cell(row, i).Length)).ToArray();
        // Cells of a few words are broken; a figure and its unit stay together.
        var least = columns
            .Select((_, i) => all.Max(row => Cell(row, i).Split(' ').Max(word => word.Length)))
            .Select((word, i) => Math.Min(wide[i], Math.Max(word, 12)))
            .ToArray();
        var taken = room - Between.Length * (columns.Length - 1);
        while (wide.Sum() > taken)
        {
            var widest = Enumerable
                .Range(0, wide.Length)
                .Where(i => wide[i] > least[i])
                .OrderByDescending(i => wide[i])
                .ToList();
            if (widest.Count == 0)
                return null;
            wide[widest[0]]--;
        }
        return wide;
    }

    private static string Cell(string[] row, int column) => column < row.Length ? row[column] : "";

    private string Table(int[] widths)
    {
        var text = new StringBuilder();
        Append(text, columns, widths);
        text.AppendJoin(Between, widths.Select(width => new string('-', width))).Append('\n');
        foreach (var row in rows)
            Append(text, row, widths);
        return text.ToString();
    }

    private static void Append(StringBuilder text, string[] row, int[] widths)
    {
        var cells = widths
            .Select((width, i) => Page.Wrapped(Cell(row, i), width, hanging: 0).TrimEnd('\n').Split('\n'))
            .ToList();
        for (var line = 0; line < cells.Max(cell => cell.Length); line++)
            text.AppendJoin(
                    Between,
                    widths.Select((width, i) => (line < cells[i].Length ? cells[i][line] : "").PadRight(width))
                )
                .Append('\n');
    }

    private string Stacked(int room)
    {
        var text = new StringBuilder();
        foreach (var row in rows)
        {
            text.Append(Page.Wrapped(Cell(row, 0), room));
            for (var i = 1; i < columns.Length; i++)
                if (Cell(row, i).Length > 0)
                    text.Append(Page.Wrapped("  " + Say.It($"{columns[i]}: {Cell(row, i)}"), room));
        }
        return text.ToString();
    }
}
