using Tightcold.Procedures.Rules;

namespace Tightcold.Picture.Books;

/// <summary>One line of the refrigerant ledger: one container in one job, or what the job lost.</summary>
/// <param name="Job">Number of the job.</param>
/// <param name="Date">Last entry of the job.</param>
/// <param name="Car">Its name.</param>
/// <param name="Refrigerant">Of the container, or of the car for losses.</param>
/// <param name="Container">Its name; null for the loss of the job.</param>
/// <param name="DrawnKg">Left it.</param>
/// <param name="RecoveredKg">Came into it.</param>
/// <param name="LostKg">To the air: hoses, purges, opened with some inside.</param>
/// <param name="ChargedKg">Reached the system and stayed; counted once a job, on the loss line.</param>
public sealed record LedgerLine(
    int Job,
    DateTimeOffset Date,
    string Car,
    string Refrigerant,
    string? Container,
    double DrawnKg,
    double RecoveredKg,
    double LostKg,
    double ChargedKg
)
{
    /// <summary>What the law of the job's place counts its loss with; null for a mixture or a gas without a
    /// figure.</summary>
    public WarmingFigure? Warming { get; init; }

    /// <summary>What was lost, as carbon dioxide; null where there is no figure.</summary>
    public double? LostAsCarbonDioxideKg => LostKg * Warming?.Potential;

    /// <summary>Where the job was done, as the kit said; empty when it did not say.</summary>
    public string Place { get; init; } = "";

    /// <summary>Who did it.</summary>
    public string Person { get; init; } = "";

    /// <summary>That person's certificate or licence.</summary>
    public string Certificate { get; init; } = "";

    /// <summary>Who received what was recovered; empty while that is not written down.</summary>
    public string WentTo { get; init; } = "";
}
