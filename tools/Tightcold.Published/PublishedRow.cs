using System.Globalization;

namespace Tightcold.Published;

/// <summary>One line of rows.csv: a fact that somebody printed, pressures in bar gauge, temperatures in °C.</summary>
internal sealed record PublishedRow
{
    public required string Id { get; init; }

    public required bool IsSound { get; init; }

    /// <summary>Rows of one maker are left out together.</summary>
    public required string Maker { get; init; }

    public required string Source { get; init; }

    public required string Date { get; init; }

    public required string Refrigerant { get; init; }

    public required string Device { get; init; }

    public required string Compressor { get; init; }

    public required Range? Air { get; init; }

    public required Range? Humidity { get; init; }

    public required string Rpm { get; init; }

    public required string Intake { get; init; }

    public required string Blower { get; init; }

    public required string Doors { get; init; }

    public required Range? Low { get; init; }

    public required Range? High { get; init; }

    public required Range? Vent { get; init; }

    /// <summary>Keys of the faults that the source names, any of which is right; empty for a sound car.</summary>
    public required string[] Truth { get; init; }

    public required IReadOnlyDictionary<string, string> Seen { get; init; }

    /// <summary>Why the row is not judged; empty where it is.</summary>
    public required string LeftOut { get; init; }

    /// <summary>One car: a source's chart.</summary>
    public string Car => Maker + "|" + Source + "|" + Date;

    public static PublishedRow[] All()
    {
        using var stream = typeof(PublishedRow).Assembly.GetManifestResourceStream("rows.csv")!;
        using var reader = new StreamReader(stream);
        return [.. reader.ReadToEnd().Split('\n', StringSplitOptions.RemoveEmptyEntries).Skip(1).Select(Of)];
    }

    private static PublishedRow Of(string line)
    {
        var f = line.Split(';');
        if (f.Length != 25)
            throw new FormatException($"rows.csv: 25 fields are wanted in “{line}”.");
        return new()
        {
            Id = f[0],
            IsSound = f[1] == "sound",
            Maker = f[2],
            Source = f[3],
            Date = f[4],
            Refrigerant = f[5],
            Device = f[6],
            Compressor = f[7],
            Air = Range.Of(f[8], f[9]),
            Humidity = Range.Of(f[10], f[11]),
            Rpm = f[12],
            Intake = f[13],
            Blower = f[14],
            Doors = f[15],
            Low = Range.Of(f[16], f[17]),
            High = Range.Of(f[18], f[19]),
            Vent = Range.Of(f[20], f[21]),
            Truth = f[22].Split('|', StringSplitOptions.RemoveEmptyEntries),
            Seen = f[23]
                .Split(',', StringSplitOptions.RemoveEmptyEntries)
                .Select(pair => pair.Split('='))
                .ToDictionary(pair => pair[0], pair => pair[1]),
            LeftOut = f[24],
        };
    }

    internal readonly record struct Range(double From, double To)
    {
        public double Middle => 0.5 * (From + To);

        public double Half => 0.5 * (To - From);

        public static Range? Of(string from, string to)
        {
            if (from.Length == 0 || to.Length == 0)
                return null;
            return new(
                double.Parse(from, CultureInfo.InvariantCulture),
                double.Parse(to, CultureInfo.InvariantCulture)
            );
        }
    }
}
