namespace Tightcold.Findings;

/// <summary>Which way a finding points. Screens show it with a word and a shape, never by colour alone.</summary>
public enum Judgement
{
    /// <summary>No judgement: nothing known yet, or plain information.</summary>
    Open,

    /// <summary>As it should be.</summary>
    Good,

    /// <summary>The readings do not decide.</summary>
    CannotTell,

    /// <summary>Something is wrong or not done.</summary>
    Bad,
}
