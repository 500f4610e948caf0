namespace Tightcold.App.Demo;

/// <summary>One line of the demo's story.</summary>
/// <param name="Minute">Since the car came, at 07:40.</param>
/// <param name="Tag">Name by which a later line may correct this one.</param>
/// <param name="Corrects">Tag of the line that this one supersedes.</param>
internal sealed record DemoEntry(
    double Minute,
    string Kind,
    Dictionary<string, string> Fields,
    string? Tag = null,
    string? Corrects = null,
    string? Reason = null
);
