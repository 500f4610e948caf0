namespace Tightcold.Loop.Refrigerant;

/// <summary>A table as a file: doubles, the low byte first. First log of pressure, step, critical temperature, critical
/// pressure, molar mass, then the nodes one after the other, each with its columns.</summary>
internal static class TableFile
{
    /// <summary>The table that travels with the program.</summary>
    public static RefrigerantTable Shipped(string name)
    {
        using var stream = typeof(TableFile).Assembly.GetManifestResourceStream(name + ".table")
            ?? throw new FormatException($"The table of {name} is missing from the program.");
        return Read(name, stream);
    }

    /// <exception cref="FormatException">The file is cut short or longer than its nodes.</exception>
    public static RefrigerantTable Read(string name, Stream stream)
    {
        using var reader = new BinaryReader(stream);
        var (low, step, kelvins, pascals, molar) = (
            reader.ReadDouble(),
            reader.ReadDouble(),
            reader.ReadDouble(),
            reader.ReadDouble(),
            reader.ReadDouble()
        );
        var left = stream.Length - stream.Position;
        if (left % (RefrigerantTable.Columns * sizeof(double)) != 0)
            throw new FormatException($"The table of {name} is damaged.");
        var nodes = new double[left / (RefrigerantTable.Columns * sizeof(double))][];
        for (var i = 0; i < nodes.Length; i++)
        {
            nodes[i] = new double[RefrigerantTable.Columns];
            for (var j = 0; j < RefrigerantTable.Columns; j++)
                nodes[i][j] = reader.ReadDouble();
        }
        return new(name, low, step, nodes, kelvins, pascals, molar);
    }

    public static void Write(RefrigerantTable table, Stream stream)
    {
        using var writer = new BinaryWriter(stream, System.Text.Encoding.UTF8, leaveOpen: true);
        foreach (
            var number in (double[])
                [
                    table.MinLogPressure,
                    table.Step,
                    table.CriticalTemperatureK,
                    table.CriticalPressurePa,
                    table.MolarMassKgPerMol,
                ]
        )
            writer.Write(number);
        foreach (var node in table.Nodes)
        foreach (var number in node)
            writer.Write(number);
    }
}
