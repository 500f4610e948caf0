using Tightcold.Quantities;
using Tightcold.Tongues;

namespace Tightcold.App.PropertyTables;

/// <summary>What a table's header line says: where the two inputs stand, and what was left aside.</summary>
public sealed record PropertyHeader(
    char Separator,
    int ColumnCount,
    PropertyColumn First,
    int FirstIndex,
    PropertyColumn Second,
    int SecondIndex,
    IReadOnlyList<string> Ignored
)
{
    private static readonly (PropertyQuantity, PropertyQuantity)[] Pairs =
    [
        (PropertyQuantity.Temperature, PropertyQuantity.Pressure),
        (PropertyQuantity.Temperature, PropertyQuantity.Density),
        (PropertyQuantity.Temperature, PropertyQuantity.Quality),
        (PropertyQuantity.Pressure, PropertyQuantity.Enthalpy),
        (PropertyQuantity.Pressure, PropertyQuantity.Entropy),
        (PropertyQuantity.Pressure, PropertyQuantity.Quality),
    ];

    /// <summary>
    /// Reads a header line. The first two columns with a known name are the inputs, in the order of the pairs; the
    /// others are ignored and listed. Separators: comma, semicolon or tab.
    /// </summary>
    /// <exception cref="PropertyTableException">No two known columns, or no supported pair.</exception>
    public static PropertyHeader Parse(string line)
    {
        var text = line.TrimStart('\uFEFF');
        var separator =
            text.Contains(',', StringComparison.Ordinal) ? ','
            : text.Contains(';', StringComparison.Ordinal) ? ';'
            : '\t';
        var names = text.Split(separator).Select(name => name.Trim().Trim('"')).ToArray();
        var known = names
            .Select((name, index) => (Column: PropertyColumn.Find(name), Index: index))
            .Where(entry => entry.Column is not null)
            .Take(2)
            .ToList();
        if (known.Count < 2)
            throw new PropertyTableException(
                Say.It(
                    $"The header needs two of these columns: {string.Join(", ", PropertyColumn.Names)}. It says: {text}"
                )
            );
        var (a, b) = (known[0], known[1]);
        if (!Pairs.Contains((a.Column!.Quantity, b.Column!.Quantity)))
            (a, b) = (b, a);
        if (!Pairs.Contains((a.Column!.Quantity, b.Column!.Quantity)))
        {
            var supported = string.Join(
                ", ",
                Pairs.Select(pair => Say.It($"{Say.It(Word(pair.Item1))} with {Say.It(Word(pair.Item2))}"))
            );
            throw new PropertyTableException(
                Say.It($"{b.Column!.Name} with {a.Column.Name} is not a supported pair. Supported: {supported}.")
            );
        }

        var ignored = names.Where((_, index) => index != a.Index && index != b.Index).ToList();
        return new PropertyHeader(separator, names.Length, a.Column!, a.Index, b.Column!, b.Index, ignored);
    }

    [Said]
    private static string Word(PropertyQuantity quantity) =>
        quantity switch
        {
            PropertyQuantity.Temperature => "temperature",
            PropertyQuantity.Pressure => "pressure",
            PropertyQuantity.Density => "density",
            PropertyQuantity.Enthalpy => "enthalpy",
            PropertyQuantity.Entropy => "entropy",
            _ => "vapour quality",
        };
}
