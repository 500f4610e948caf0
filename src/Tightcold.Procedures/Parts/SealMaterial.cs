using Tightcold.Quantities;

namespace Tightcold.Procedures.Parts;

/// <summary>Rubber by refrigerant; common practice.</summary>
public static class SealMaterial
{
    [Said]
    public static string For(string refrigerant) =>
        refrigerant switch
        {
            "R-1234yf" => "HNBR rated for R-1234yf",
            "R-134a" => "HNBR (green or black)",
            "R-12" => "neoprene or HNBR; old neoprene is renewed",
            _ => "the maker's own seal",
        };

    /// <summary>False when the words on a seal name a rubber that this refrigerant or its oil swells; null when they
    /// name none.</summary>
    public static bool? Fits(string refrigerant, string seal)
    {
        bool Says(string word) => seal.Contains(word, StringComparison.OrdinalIgnoreCase);
        if (Says("HNBR"))
            return true;
        if (Says("EPDM") && refrigerant is "R-134a" or "R-1234yf")
            return null;
        if (Says("FKM") || Says("silicone") || Says("natural rubber"))
            return false;
        return Says("NBR") || Says("neoprene") ? refrigerant == "R-12" : null;
    }
}
