namespace Tightcold.Jobs.Journals;

/// <summary>One visit of one car with a complaint.</summary>
/// <param name="Number">Short and spoken: what the card and the command line call it.</param>
/// <param name="Seed">Makes any sampling in findings repeatable.</param>
public sealed record Job(Guid Id, Guid CarId, int Number, string Complaint, DateTimeOffset OpenedAt, int Seed);
