using Tightcold.Diagnosis.Leaks;

namespace Tightcold.Diagnosis.Tightness;

/// <summary>What is believed of one spot.</summary>
/// <param name="Leaking">Odds that it leaks now beyond its kind's seep.</param>
/// <param name="Leaked">Odds that it leaked before its repair; the same as now where none was made.</param>
/// <param name="RateKgPerS">Rate at rest if it leaks now (a mended spot: if it leaked), kg/s.</param>
/// <param name="TooMuch">Odds that this spot alone loses more than the question allows.</param>
/// <param name="OpenedOnce">For a relief device: odds that its residue comes from one opening, else 0.</param>
public sealed record SpotTightness(
    LeakSpot Spot,
    double Leaking,
    double Leaked,
    LeakQuantiles RateKgPerS,
    double TooMuch,
    double OpenedOnce
);
