namespace Tightcold.Procedures.Rules;

/// <summary>How well a line is known.</summary>
public enum Sureness
{
    /// <summary>The text itself was read.</summary>
    Text,

    /// <summary>An authority's page, a trade page or a summary was read.</summary>
    Summary,

    /// <summary>From memory; nothing was read.</summary>
    Memory,

    /// <summary>Common practice; no law.</summary>
    Practice,

    /// <summary>Nothing could be read.</summary>
    NotRead,
}
