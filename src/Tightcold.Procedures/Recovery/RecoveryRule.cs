namespace Tightcold.Procedures.Recovery;

/// <summary>One rule about recovering and keeping refrigerant, as data: never legal advice.</summary>
/// <param name="What">What it asks, in our own words.</param>
/// <param name="Paragraph">Where it stands.</param>
/// <param name="Date">Of the text it was taken from, as far as known.</param>
/// <param name="BindsOwners">Whether it binds someone who works unpaid on an own car.</param>
/// <param name="Sure">looked-up: the text was seen; memory: it was not; practice: no text.</param>
/// <param name="Keep">What must be kept, or null.</param>
public sealed record RecoveryRule(string What, string Paragraph, string Date, bool BindsOwners, string Sure, string? Keep);
