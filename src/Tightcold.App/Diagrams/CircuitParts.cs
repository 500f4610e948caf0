namespace Tightcold.App.Diagrams;

/// <summary>The parts of a circuit as plain outlines inside the ring, each with its name: the places a person knows under
/// the bonnet.</summary>
internal static class CircuitParts
{
    private const string Outline = "fill=\"none\" stroke=\"currentColor\" stroke-width=\"2\"";

    public static void Draw(Action<FormattableString> line, string spot, (double X, double Y, int OutX, int OutY) at)
    {
        if (Name(spot) is not { } name) return;
        // Inside the ring, clear of the mark and its odds.
        double x = at.X - (82 * at.OutX), y = at.Y - (66 * at.OutY);
        switch (name)
        {
            case "compressor":
                line($"<circle cx=\"{x:0.#}\" cy=\"{y:0.#}\" r=\"15\" {Outline}/><path d=\"M{x - 7:0.#} {y + 8:0.#}L{x:0.#} {y - 10:0.#}L{x + 7:0.#} {y + 8:0.#}\" {Outline}/>");
                break;
            case "expansion":
                line($"<path d=\"M{x - 13:0.#} {y - 11:0.#}l26 22v-22l-26 22z\" {Outline}/>");
                break;
            case "receiver-drier" or "accumulator":
                line($"<rect x=\"{x - 9:0.#}\" y=\"{y - 16:0.#}\" width=\"18\" height=\"32\" rx=\"8\" {Outline}/>");
                break;
            default:
                line($"<rect x=\"{x - 16:0.#}\" y=\"{y - 13:0.#}\" width=\"32\" height=\"26\" {Outline}/><path d=\"M{x - 12:0.#} {y + 8:0.#}l4 -16l6 16l6 -16l6 16\" {Outline}/>");
                break;
        }
        line($"<text x=\"{x:0.#}\" y=\"{y + 30:0.#}\" text-anchor=\"middle\" font-size=\"12\">{name}</text>");
    }

    private static string? Name(string spot) => spot switch
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
