using System.Globalization;
using Tightcold.Properties;
using Tightcold.Tongues;

namespace Tightcold.App.PropertyTables;

/// <summary>Some whole lines of a table, evaluated.</summary>
internal sealed class PropertyChunk : IDisposable
{
    private readonly ChunkWriter _writer = new();
    private readonly List<RowProblem> _problems = [];

    /// <summary>The text of the results.</summary>
    public ReadOnlyMemory<char> Output => _writer.Written;

    /// <summary>Problems, with line numbers counted from the first line of the chunk as 0.</summary>
    public IReadOnlyList<RowProblem> Problems => _problems;

    public long Lines { get; private set; }

    public long Rows { get; private set; }

    public void Dispose() => _writer.Dispose();

    public static PropertyChunk Evaluate(ReadOnlySpan<char> text, PropertyHeader header, RowEvaluator evaluator)
    {
        var chunk = new PropertyChunk();
        while (text.Length > 0)
        {
            var end = text.IndexOf('\n');
            var line = end < 0 ? text : text[..end];
            text = end < 0 ? [] : text[(end + 1)..];
            if (!line.IsWhiteSpace())
                chunk.Row(line.TrimEnd('\r'), header, evaluator);
            chunk.Lines++;
        }

        return chunk;
    }

    private void Row(ReadOnlySpan<char> line, PropertyHeader header, RowEvaluator evaluator)
    {
        Rows++;
        double first = 0,
            second = 0;
        var column = 0;
        var rest = line;
        while (true)
        {
            var end = rest.IndexOf(header.Separator);
            var field = end < 0 ? rest : rest[..end];
            if (column == header.FirstIndex && !TryNumber(field, out first))
            {
                Problem(Say.It($"{header.First.Name}: '{field.ToString()}' is not a number"));
                return;
            }

            if (column == header.SecondIndex && !TryNumber(field, out second))
            {
                Problem(Say.It($"{header.Second.Name}: '{field.ToString()}' is not a number"));
                return;
            }

            column++;
            if (end < 0)
                break;
            rest = rest[(end + 1)..];
        }

        // A decimal comma in a comma-separated file shows as a field too many: refused, not misread.
        if (column != header.ColumnCount)
        {
            Problem(
                Say.Many(
                    column,
                    $"{column} field where the header has {header.ColumnCount}",
                    $"{column} fields where the header has {header.ColumnCount}"
                )
            );
            return;
        }

        try
        {
            _writer.Row(evaluator.Evaluate(header.First.ToSi(first), header.Second.ToSi(second)));
        }
        catch (FluidRangeException refused)
        {
            Problem(refused.Message);
        }
        catch (FlashDidNotConvergeException stalled)
        {
            Problem(stalled.Message);
        }
    }

    private void Problem(string reason)
    {
        _problems.Add(new RowProblem(Lines, reason));
        _writer.ErrorRow();
    }

    private static bool TryNumber(ReadOnlySpan<char> field, out double value) =>
        double.TryParse(field.Trim().Trim('"'), NumberStyles.Float, CultureInfo.InvariantCulture, out value);
}
