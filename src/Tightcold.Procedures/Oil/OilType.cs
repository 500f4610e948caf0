using Tightcold.Quantities;

namespace Tightcold.Procedures.Oil;

/// <summary>Oil by compressor and refrigerant. Common practice throughout; the maker's label rules. That double
/// end-capped PAG also serves R-134a was read in a trade article; that ordinary PAG does not serve R-1234yf is the
/// trade's rule, from memory.</summary>
public static class OilType
{
    /// <summary>What to look for when nothing is written on the car.</summary>
    [Said]
    public static string Needed(bool electric, string refrigerant) =>
        electric
            ? "the maker's own non-conductive POE; nothing else, and no dye unless the maker allows it"
            : refrigerant switch
            {
                "R-1234yf" => "double end-capped PAG made for R-1234yf, ISO 46, 100 or 150 by the compressor's label; "
                    + "POE where the label says so",
                "R-12" => "mineral oil, ISO by the compressor's label",
                "R-744" => "the maker's own oil for R-744; nothing else",
                _ => "PAG ISO 46, 100 or 150 by the compressor's label",
            };

    /// <param name="electric">High-voltage compressor; null when the kind is not known.</param>
    /// <param name="refrigerant">As on the label.</param>
    /// <param name="carOil">What the car's data say, or null.</param>
    /// <param name="added">What somebody wants to pour in, as written on the bottle.</param>
    /// <returns>The judgement and why, in a few words.</returns>
    public static (OilFit Fit, Phrase Why) Judge(bool? electric, string refrigerant, string? carOil, string added)
    {
        var given = Family(added);
        if (electric == true && given != OilFamily.Ester)
            return (
                OilFit.Stop,
                Phrase.Words(
                    "in an electric compressor other oil leads current: the high voltage may reach the " + "body"
                )
            );
        if (refrigerant == "R-744")
            return (OilFit.Unsure, Phrase.Words("R-744 asks for the maker's own oil at its pressures; ask the maker"));
        if (given == OilFamily.NotNamed)
        {
            return (
                OilFit.Unsure,
                electric is null
                    ? Phrase.Words("neither the compressor's kind nor this oil's family is known")
                    : Phrase.Words("this oil's family is not named on it")
            );
        }
        var labelled = Family(carOil);
        if (labelled != OilFamily.NotNamed && !Mixes(labelled, given))
            return (
                OilFit.Stop,
                Phrase.Of(
                    $"this compressor takes {Phrase.Verbatim(carOil!.Trim())}, and oils of two families do not mix"
                )
            );
        if (Refrigerant(refrigerant, given, labelled) is { } refused)
            return refused;
        if (labelled != OilFamily.NotNamed)
            return Graded(carOil, added);
        if (electric == true)
            return (OilFit.AskGrade, Phrase.Words("non-conductive by its name; only the maker's own type is sure"));
        return given is OilFamily.Pag or OilFamily.DoubleCappedPag
                ? (
                    OilFit.AskGrade,
                    Phrase.Words("usual for belt-driven compressors; the viscosity is on the compressor's label")
                )
            : given == OilFamily.Mineral && refrigerant == "R-12"
                ? (OilFit.AskGrade, Phrase.Words("usual with R-12; the viscosity is on the compressor's label"))
            : (OilFit.Unsure, Phrase.Words("the car's oil type is not known"));
    }

    /// <summary>Whether a bottle holds dye.</summary>
    public static bool IsDye(string? bottle) => Has(bottle, "dye");

    /// <summary>Whether dye may go in: it comes in oil, so it is held to the same rules, and some of it leads
    /// current.</summary>
    /// <param name="electric">High-voltage compressor; null when the kind is not known.</param>
    /// <param name="refrigerant">As on the label.</param>
    /// <param name="carOil">What the car's data say, or null.</param>
    /// <param name="dye">As written on the bottle.</param>
    public static (OilFit Fit, Phrase Why) JudgeDye(bool? electric, string refrigerant, string? carOil, string dye)
    {
        if (electric == true)
        {
            return Has(dye, "electric") || Has(dye, "hybrid") || Has(dye, "non-conductive")
                ? (
                    OilFit.Unsure,
                    Phrase.Words("made for electric compressors by its name; only where this maker allows dye")
                )
                : (OilFit.Stop, Phrase.Words("dye in common oil lets the high voltage of an electric compressor leak"));
        }
        var (carrier, labelled) = (Family(dye), Family(carOil));
        if (carrier == OilFamily.Mineral && refrigerant is "R-134a" or "R-1234yf")
            return (
                OilFit.Stop,
                Phrase.Of($"{Phrase.Verbatim(refrigerant)} does not carry the mineral oil this dye comes in")
            );
        if (carrier != OilFamily.NotNamed && labelled != OilFamily.NotNamed && !Mixes(carrier, labelled))
            return (
                OilFit.Stop,
                Phrase.Of(
                    $"this compressor takes {Phrase.Verbatim(carOil!.Trim())}, and the oil this dye comes in does not "
                        + $"mix with it"
                )
            );
        if (refrigerant == "R-1234yf" && !IsForLowWarming(dye))
            return (
                OilFit.Unsure,
                Phrase.Words("dye for R-1234yf comes in its own double end-capped oil; this one does not name it")
            );
        return refrigerant is "R-134a" or "R-1234yf"
            ? (
                OilFit.Fits,
                electric is null
                    ? Phrase.Words(
                        "one dose, 7 mL (0.25 oz) in most circuits by common practice; its oil counts with the oil "
                            + "added; none into an electric compressor unless its maker allows it"
                    )
                    : Phrase.Words(
                        "one dose, 7 mL (0.25 oz) in most circuits by common practice; its oil counts with the oil "
                            + "added"
                    )
            )
            : (OilFit.Unsure, Phrase.Words("whether dye goes with this refrigerant is not known"));
    }

    /// <summary>The family that words name.</summary>
    public static OilFamily Family(string? oil) =>
        Has(oil, "PAG")
            ? IsForLowWarming(oil)
                ? OilFamily.DoubleCappedPag
                : OilFamily.Pag
            : Has(oil, "double end") || Has(oil, "double-end")
                ? OilFamily.DoubleCappedPag
                : Has(oil, "POE") || Has(oil, "ester") || Has(oil, "non-conductive") || Has(oil, "nonconductive")
                    ? OilFamily.Ester
                    : Has(oil, "mineral")
                        ? OilFamily.Mineral
                        : OilFamily.NotNamed;

    private static bool IsForLowWarming(string? oil) =>
        Has(oil, "double end") || Has(oil, "double-end") || Has(oil, "1234yf") || Has(oil, "yf");

    private static bool Mixes(OilFamily one, OilFamily other) =>
        one == other
        || (one is OilFamily.Pag or OilFamily.DoubleCappedPag && other is OilFamily.Pag or OilFamily.DoubleCappedPag);

    /// <summary>What the refrigerant itself refuses, whatever the families say; null when it refuses nothing.</summary>
    private static (OilFit, Phrase)? Refrigerant(string refrigerant, OilFamily given, OilFamily labelled) =>
        (refrigerant, given) switch
        {
            ("R-1234yf", OilFamily.Pag) => (
                OilFit.Unsure,
                Phrase.Words(
                    "R-1234yf asks for double end-capped PAG made for it; this bottle does not say so, and ordinary "
                        + "PAG can decompose in it"
                )
            ),
            ("R-1234yf", OilFamily.Mineral) => (
                OilFit.Stop,
                Phrase.Words("R-1234yf does not carry mineral oil back to the compressor")
            ),
            ("R-1234yf", OilFamily.Ester) when labelled != OilFamily.Ester => (
                OilFit.Unsure,
                Phrase.Words("POE only where the compressor's label names it")
            ),
            ("R-134a", OilFamily.Mineral) => (
                OilFit.Stop,
                Phrase.Words("R-134a does not carry mineral oil back to the compressor")
            ),
            ("R-12", OilFamily.Pag or OilFamily.DoubleCappedPag) => (
                OilFit.Unsure,
                Phrase.Words("PAG does not go with what mineral oil and R-12 leave behind")
            ),
            ("R-12", OilFamily.Ester) => (OilFit.Unsure, Phrase.Words("POE is for a retrofit, not for R-12 itself")),
            ("R-152a", _) => (OilFit.Unsure, Phrase.Words("no car maker's text on oil with R-152a was read")),
            _ => null,
        };

    private static (OilFit Fit, Phrase Why) Graded(string? label, string added) =>
        Grade(label) is { } want && Grade(added) is { } got
            ? want == got
                ? (OilFit.Fits, Phrase.Words("as on the label"))
                : (
                    OilFit.Unsure,
                    Phrase.Of($"ISO {Phrase.Verbatim(got)} where the label asks for ISO {Phrase.Verbatim(want)}")
                )
            : (OilFit.AskGrade, Phrase.Words("the right family; look up the viscosity"));

    private static bool Has(string? text, string word) =>
        text is not null && text.Contains(word, StringComparison.OrdinalIgnoreCase);

    private static string? Grade(string? oil) =>
        oil?.Split(' ', '-', '/', ',').FirstOrDefault(word => word is "46" or "68" or "100" or "150");
}
