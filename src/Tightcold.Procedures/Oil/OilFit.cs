namespace Tightcold.Procedures.Oil;

/// <summary>Whether an oil may go into a compressor.</summary>
public enum OilFit
{
    /// <summary>Of the family this compressor needs.</summary>
    Fits,

    /// <summary>Right family as far as known; the viscosity grade is the maker's.</summary>
    AskGrade,

    /// <summary>Not known: do not pour.</summary>
    Unsure,

    /// <summary>It can hurt: stop.</summary>
    Stop,
}
