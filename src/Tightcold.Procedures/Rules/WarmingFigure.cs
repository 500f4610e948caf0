using Tightcold.Quantities;

namespace Tightcold.Procedures.Rules;

/// <summary>How much carbon dioxide warms as much over 100 years as the same mass of a refrigerant, by the law of a
/// place; where that was not read or names no figure, by an assessment report alone.</summary>
/// <param name="Potential">kg of carbon dioxide a kg.</param>
/// <param name="Report">The report it stands on, such as AR4.</param>
/// <param name="Law">Whose law counts so, such as “European Union”; null where no law was read that does.</param>
public sealed record WarmingFigure(double Potential, string Report, [Said] string? Law)
{
    /// <summary>“fourth assessment report, so counted by law: Canada”.</summary>
    public Phrase Words =>
        Law is { } law
            ? Phrase.Of($"{Named(Report)}, so counted by law: {law}")
            : Phrase.Of($"{Named(Report)}; no law of the place read");

    /// <summary>The report in words; null for one that is not known here.</summary>
    [Said]
    internal static string? Name(string report) =>
        report switch
        {
            "AR4" => "fourth assessment report",
            "AR5" => "fifth assessment report",
            "AR6" => "sixth assessment report",
            "SAP 2010" => "scientific assessment of ozone 2010",
            _ => null,
        };

    private static Phrase Named(string report) =>
        Name(report) is { } known ? Phrase.Words(known) : Phrase.Verbatim(report);
}
