namespace Tightcold.Diagnosis.Tightness;

/// <summary>Tests of the whole circuit, done or proposed.</summary>
public enum TightnessTestKind
{
    VacuumHold,
    NitrogenDecay,

    /// <summary>A look at every joint in reach; which look is said beside it.</summary>
    WholeSearch,

    /// <summary>A look at one spot.</summary>
    SpotCheck,

    /// <summary>The standing pressure again, days later.</summary>
    StandingAgain,
}
