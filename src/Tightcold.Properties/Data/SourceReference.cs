namespace Tightcold.Properties.Data;

/// <summary>The paper behind one part of a fluid file.</summary>
/// <param name="Part">Which part: equation_of_state, viscosity, …</param>
/// <param name="Key">Key in docs/sources.bib.</param>
/// <param name="Authors">Authors as printed.</param>
/// <param name="Year">Year of publication.</param>
/// <param name="Title">Title.</param>
/// <param name="Journal">Journal, volume and pages.</param>
/// <param name="Doi">DOI, or null where none was assigned.</param>
public sealed record SourceReference(
    string Part,
    string Key,
    string Authors,
    int Year,
    string Title,
    string Journal,
    string? Doi
);
