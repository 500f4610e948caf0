using System.Collections.Immutable;
using System.Globalization;

namespace Tightcold.Injected;

/// <summary>
/// The rows, one file a room: a number, then <c>in</c>, <c>find</c>, <c>put</c> (both again where two places make one fault),
/// <c>says</c> and <c>sees</c>, a line each, with an empty line behind. Plain text, because a row holds pieces of source, quotes and braces and all.
/// </summary>
internal static class FaultList
{
    public static readonly ImmutableArray<string> Rooms =
    [
        "Quantities",
        "Numerics",
        "Properties",
        "Loop",
        "Diagnosis",
        "Procedures",
        "Jobs",
        "Picture",
        "Findings",
        "Storage",
        "App",
        "Cli",
        "Pages",
        "Tongues",
        "Web",
    ];

    /// <param name="folder">Where the rows stand, beside this tool's sources: read anew each time, so that a row can be
    /// mended without building.</param>
    public static ImmutableArray<Fault> All(string folder)
    {
        var all = Rooms
            .SelectMany(room => Of(room, File.ReadAllText(Path.Combine(folder, room + ".txt"))))
            .ToImmutableArray();
        var twice = all.GroupBy(fault => fault.Id)
            .Where(group => group.Count() > 1)
            .Select(group => group.Key)
            .ToArray();
        return twice.Length == 0
            ? all
            : throw new FormatException($"Two faults have the number {string.Join(", ", twice)}.");
    }

    private static IEnumerable<Fault> Of(string room, string text) =>
        text.Split('\n')
            .Where(line => !line.StartsWith('#'))
            .Aggregate(new List<List<string>> { new() }, (rows, line) =>
            {
                if (line.Length > 0)
                    rows[^1].Add(line);
                else if (rows[^1].Count > 0)
                    rows.Add([]);
                return rows;
            })
            .Where(row => row.Count > 0)
            .Select(row => Row(room, row));

    private static Fault Row(string room, List<string> lines)
    {
        if (
            lines.Count < 6
            || lines.Count % 2 != 0
            || !int.TryParse(lines[0], NumberStyles.None, CultureInfo.InvariantCulture, out var id)
        )
            throw new FormatException(
                $"{room}: “{lines[0]}” has {lines.Count} lines; a number, then in, find, put, says and sees are needed."
            );
        string After(int line, string word) =>
            lines[line].StartsWith(word + " ", StringComparison.Ordinal)
                ? lines[line][(word.Length + 1)..].Trim()
                : throw new FormatException($"{room} {id}: “{lines[line]}” stands where “{word} …” is needed.");
        return new(
            id,
            room,
            $"src/Tightcold.{room}/{After(1, "in")}",
            [
                .. Enumerable
                    .Range(1, (lines.Count - 4) / 2)
                    .Select(pair => new Change(After(2 * pair, "find"), After((2 * pair) + 1, "put"))),
            ],
            After(lines.Count - 2, "says"),
            [.. After(lines.Count - 1, "sees").Split(',', StringSplitOptions.TrimEntries).Select(Look.Of)]
        );
    }
}
