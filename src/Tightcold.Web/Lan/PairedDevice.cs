namespace Tightcold.Web.Lan;

/// <summary>A phone or another computer that was let in.</summary>
/// <param name="Name">As its owner called it.</param>
/// <param name="LastSeen">To the minute.</param>
public sealed record PairedDevice(Guid Id, string Name, DateTimeOffset PairedAt, DateTimeOffset LastSeen);
