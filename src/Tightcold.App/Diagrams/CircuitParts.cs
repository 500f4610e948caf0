namespace Tightcold.App.Diagrams;

/// <summary>The parts of a circuit as plain outlines inside the ring, each with its name: the places a person knows
/// under the bonnet.</summary>
internal static class CircuitParts
{
    private const string Outline = "fill=\"none\" stroke=\"currentColor\" stroke-width=\"2\"";

    // A symbol with its name below it is so high; what the two strokes of the pipe mean needs a little less.
    private const double Apart = 52;

    /// <summary>All of them one above the other in the middle, clear of marks and odds, each as near to its spot as the
    /// others let it and with its number; and among them what the two strokes of the pipe mean.</summary>
    /// <param name="spots">Every spot in order, and the height at which it stands.</param>
    public static void Draw(
        Action<FormattableString> line,
        CircuitRing ring,
        IEnumerable<(string Spot, double Y)> spots
    )
    {
        const double middle = (CircuitRing.Left + CircuitRing.Right) / 2;
        var drawn = spots
            .Select((spot, i) => (Name: Name(spot.Spot), Number: i + 1, spot.Y))
            .Where(part => part.Name is not null)
            .Append((Name: null, Number: 0, Y: CircuitRing.Top + (0.4 * ring.Down)))
            .OrderBy(part => part.Y)
            .ToArray();
        var places = PushedApart([.. drawn.Select(part => part.Y)], CircuitRing.Top + 58, ring.Bottom - 78);
        for (var i = 0; i < drawn.Length; i++)
        {
            if (drawn[i].Name is { } name)
                Part(line, name, drawn[i].Number, middle, places[i]);
            else
                Strokes(line, middle, places[i]);
        }
    }

    /// <summary>Places in order and so far apart, between two ends; nearest to where they were wanted that one pass
    /// down and one pass up find.</summary>
    private static double[] PushedApart(double[] wanted, double from, double to)
    {
        var apart = Math.Min(Apart, (to - from) / Math.Max(1, wanted.Length - 1));
        for (var i = 0; i < wanted.Length; i++)
            wanted[i] = Math.Max(wanted[i], i == 0 ? from : wanted[i - 1] + apart);
        for (var i = wanted.Length - 1; i >= 0; i--)
            wanted[i] = Math.Min(wanted[i], i == wanted.Length - 1 ? to : wanted[i + 1] - apart);
        return wanted;
    }

    private static void Strokes(Action<FormattableString> line, double x, double y)
    {
        line(
            $"<path class=\"high-pipe\" d=\"M{x - 62:0} {y - 5:0.#}h34\" stroke=\"currentColor\" stroke-width=\"5\"/><text class=\"high-name\" x=\"{x - 20:0}\" y=\"{y:0.#}\" font-weight=\"bold\">high side</text>"
        );
        line(
            $"<path class=\"low-pipe\" d=\"M{x - 62:0} {y + 15:0.#}h34\" stroke=\"currentColor\" stroke-width=\"5\" stroke-dasharray=\"9 4\"/><text class=\"low-name\" x=\"{x - 20:0}\" y=\"{y + 20:0.#}\" font-weight=\"bold\">low side</text>"
        );
    }

    private static void Part(Action<FormattableString> line, string name, int number, double x, double y)
    {
        switch (name)
        {
            case "compressor":
                line(
                    $"<circle cx=\"{x:0.#}\" cy=\"{y:0.#}\" r=\"15\" {Outline}/><path d=\"M{x - 7:0.#} {y + 8:0.#}L{x:0.#} {y - 10:0.#}L{x + 7:0.#} {y + 8:0.#}\" {Outline}/>"
                );
                break;
            case "expansion":
                line($"<path d=\"M{x - 13:0.#} {y - 11:0.#}l26 22v-22l-26 22z\" {Outline}/>");
                break;
            case "receiver-drier" or "accumulator":
                line($"<rect x=\"{x - 9:0.#}\" y=\"{y - 16:0.#}\" width=\"18\" height=\"32\" rx=\"8\" {Outline}/>");
                break;
            default:
                line(
                    $"<rect x=\"{x - 16:0.#}\" y=\"{y - 13:0.#}\" width=\"32\" height=\"26\" {Outline}/><path d=\"M{x - 12:0.#} {y + 8:0.#}l4 -16l6 16l6 -16l6 16\" {Outline}/>"
                );
                break;
        }
        line($"<text x=\"{x:0.#}\" y=\"{y + 30:0.#}\" text-anchor=\"middle\" font-size=\"12\">{number} {name}</text>");
    }

    private static string? Name(string spot) =>
        spot switch
        {
            "compressor body" => "compressor",
            "condenser" => "condenser",
            "receiver-drier" => "receiver-drier",
            "accumulator" => "accumulator",
            "evaporator" => "evaporator",
            "expansion valve block" or "orifice tube joint" => "expansion",
            _ => null,
        };
}
