namespace Tightcold.Studies.Cold;

/// <summary>How often the proof of cold was right about simulated cars.</summary>
/// <param name="Fault">Of this kind; none for the healthy ones.</param>
/// <param name="Cars">How many.</param>
/// <param name="CalledHealthy">Odds of four to one or better.</param>
/// <param name="CalledSick">Odds of one to four or worse.</param>
/// <param name="Felt">Cars that blow 4 K or more warmer than the same car without its fault.</param>
/// <param name="FeltCalledHealthy">Of those, called healthy all the same.</param>
public readonly record struct TrialRates(
    CarFault Fault,
    int Cars,
    int CalledHealthy,
    int CalledSick,
    int Felt,
    int FeltCalledHealthy
)
{
    public int CannotTell => Cars - CalledHealthy - CalledSick;
}
