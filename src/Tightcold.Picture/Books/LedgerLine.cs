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
public readonly record struct LedgerLine(
    int Job,
    DateTimeOffset Date,
    string Car,
    string Refrigerant,
    string? Container,
    double DrawnKg,
    double RecoveredKg,
    double LostKg,
    double ChargedKg
);
