namespace Tightcold.App.Desk;

/// <summary>One line of the list of jobs.</summary>
public sealed record JobSummary(
    int Number, Guid Id, Guid CarId, string CarLabel, string Complaint, string State, string? WaitingFor, DateTimeOffset OpenedAt, DateTimeOffset? LastEntryAt);
