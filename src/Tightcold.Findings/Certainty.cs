namespace Tightcold.Findings;

/// <summary>How much a finding can say with what the journal holds.</summary>
public enum Certainty
{
    /// <summary>Nothing to go on yet; the finding says what is needed.</summary>
    NothingYet,

    /// <summary>An answer, weaker than it could be: something is missing and named.</summary>
    Weak,

    /// <summary>As sure as these instruments allow.</summary>
    Stands,
}
