using System.Globalization;

namespace Tightcold.Injected;

/// <summary>What was found, a line each, written at once: a run that was ended goes on where it stopped.</summary>
internal sealed class Notebook(string file)
{
    /// <param name="Fault">0 for the run without any.</param>
    /// <param name="Row">Digest of the row, or the name of the test for a run without a fault.</param>
    /// <param name="By">The test that caught it; empty when it survived, or when nothing failed without a fault.</param>
    internal sealed record Line(int Fault, string Row, string Copy, string By, double Seconds);

    private readonly Lock gate = new();
    private readonly List<Line> lines = [.. Read(file)];

    /// <summary>Still true: a catch while the row is the same, a survival while the copy is the same as well.</summary>
    public Line? Of(Fault fault, string copy)
    {
        lock (gate)
            return lines.LastOrDefault(line =>
                line.Fault == fault.Id && line.Row == fault.Digest && (line.By.Length > 0 || line.Copy == copy)
            );
    }

    /// <summary>What was found of a test without a fault: true when it was green.</summary>
    public bool? WasGreen(string test, string copy)
    {
        lock (gate)
            return lines.LastOrDefault(line => line.Fault == 0 && line.Copy == copy && line.Row == test) is { } line
                ? line.By.Length == 0
                : null;
    }

    public void Write(Line line)
    {
        lock (gate)
        {
            lines.Add(line);
            Directory.CreateDirectory(Path.GetDirectoryName(file)!);
            File.AppendAllText(
                file,
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{line.Fault}\t{line.Row}\t{line.Copy}\t{line.By.ReplaceLineEndings(" ").Replace('\t', ' ')}\t{line.Seconds:0.0}\n"
                )
            );
        }
    }

    private static IEnumerable<Line> Read(string file) =>
        File.Exists(file)
            ? File.ReadLines(file)
                .Select(line => line.Split('\t'))
                // The last line of a run that was killed may be half of one.
                .Where(cells => cells.Length == 5)
                .Select(cells => new Line(
                    int.Parse(cells[0], CultureInfo.InvariantCulture),
                    cells[1],
                    cells[2],
                    cells[3],
                    double.Parse(cells[4], CultureInfo.InvariantCulture)
                ))
            : [];
}
