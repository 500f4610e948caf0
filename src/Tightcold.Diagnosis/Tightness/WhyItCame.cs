namespace Tightcold.Diagnosis.Tightness;

/// <summary>Why anybody looks for leaks: it decides what "nothing leaks" counts before the first test.</summary>
public enum WhyItCame
{
    /// <summary>Nobody wrote it down.</summary>
    Unknown,

    /// <summary>Weak, empty, or asked for as a leak.</summary>
    ItLost,

    /// <summary>A look without a complaint.</summary>
    CheckUp,
}
