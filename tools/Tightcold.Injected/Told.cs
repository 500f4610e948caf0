using System.Collections.Immutable;
using System.Globalization;

namespace Tightcold.Injected;

/// <summary>The outcome as a table of the document, and the survivors with what they would do to a person.</summary>
internal static class Told
{
    public static void List(TextWriter output, IEnumerable<Fault> faults)
    {
        foreach (var fault in faults)
            output.WriteLine($"{fault.Id} {fault.Room}: {fault.Says} ({Path.GetFileName(fault.File)})");
    }

    public static void Table(TextWriter output, ImmutableArray<Fault> faults, Func<Fault, Notebook.Line?> of)
    {
        output.WriteLine("| room | faults | caught |");
        output.WriteLine("|---|---|---|");
        foreach (var room in faults.GroupBy(fault => fault.Room))
            output.WriteLine($"| {room.Key} | {Caught(room, of)} |");
        output.WriteLine($"| all | {Caught(faults, of)} |");
        foreach (var fault in faults)
            if (of(fault) is not { } line)
                output.WriteLine($"not tried: {fault.Id} {fault.Room}");
            else if (line.By.Length == 0)
                output.WriteLine($"survived: {fault.Id} {fault.Room}: {fault.Says}");
    }

    private static string Caught(IEnumerable<Fault> faults, Func<Fault, Notebook.Line?> of)
    {
        var all = faults.ToArray();
        var caught = all.Count(fault => of(fault) is { By.Length: > 0 });
        return string.Create(CultureInfo.InvariantCulture, $"{all.Length} | {caught}");
    }
}
