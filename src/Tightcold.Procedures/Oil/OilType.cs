namespace Tightcold.Procedures.Oil;

/// <summary>Oil by compressor and refrigerant. Common practice throughout; the maker's label rules.</summary>
public static class OilType
{
    /// <summary>What to look for when nothing is written on the car.</summary>
    public static string Needed(bool electric, string refrigerant) => electric
        ? "the maker's own non-conductive POE; nothing else, and no dye unless the maker allows it"
        : refrigerant switch
        {
            "R-1234yf" => "double end-capped PAG made for R-1234yf, ISO 46, 100 or 150 by the compressor's label",
            "R-12" => "mineral oil, ISO by the compressor's label",
            _ => "PAG ISO 46, 100 or 150 by the compressor's label",
        };

    /// <param name="electric">High-voltage compressor; null when the kind is not known.</param>
    /// <param name="refrigerant">As on the label.</param>
    /// <param name="carOil">What the car's data say, or null.</param>
    /// <param name="added">What somebody wants to pour in, as written on the bottle.</param>
    /// <returns>The judgement and why, in a few words.</returns>
    public static (OilFit Fit, string Why) Judge(bool? electric, string refrigerant, string? carOil, string added)
    {
        var isNonConductive = Has(added, "POE") || Has(added, "non-conductive") || Has(added, "nonconductive");
        if (electric == true && !isNonConductive)
            return (OilFit.Stop, "in an electric compressor other oil leads current: the high voltage may reach the body");
        if (electric is null && !Has(added, "PAG") && !isNonConductive)
            return (OilFit.Unsure, "neither the compressor's kind nor this oil's family is known");
        if (Family(carOil) is { } needed && Family(added) is { } given)
        {
            if (needed != given) return (OilFit.Stop, $"this compressor takes {carOil!.Trim()}, and oils of two families do not mix");
            return Grade(carOil) is { } want && Grade(added) is { } got
                ? want == got ? (OilFit.Fits, "as on the label") : (OilFit.Unsure, $"ISO {got} where the label asks for ISO {want}")
                : (OilFit.AskGrade, "the right family; look up the viscosity");
        }
        if (electric == true) return (OilFit.AskGrade, "non-conductive by its name; only the maker's own type is sure");
        if (refrigerant == "R-12" && Has(added, "PAG")) return (OilFit.Unsure, "PAG does not go with what mineral oil and R-12 leave behind");
        return Has(added, "PAG") ? (OilFit.AskGrade, "usual for belt-driven compressors; the viscosity is on the compressor's label")
            : (OilFit.Unsure, "the car's oil type is not known");
    }

    private static bool Has(string? text, string word) => text is not null && text.Contains(word, StringComparison.OrdinalIgnoreCase);

    private static string? Family(string? oil) => Has(oil, "PAG") ? "PAG" : Has(oil, "POE") || Has(oil, "non-conductive") ? "POE" : Has(oil, "mineral") ? "mineral" : null;

    private static string? Grade(string? oil) => oil?.Split(' ', '-', '/', ',').FirstOrDefault(word => word is "46" or "68" or "100" or "150");
}
