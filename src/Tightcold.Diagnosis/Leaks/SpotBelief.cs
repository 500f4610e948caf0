namespace Tightcold.Diagnosis.Leaks;

/// <summary>What is believed of one spot.</summary>
/// <param name="Leaking">Probability that it leaks now, after any repair.</param>
/// <param name="Leaked">Probability that it leaked before a repair; the same as now where none was made.</param>
/// <param name="RateKgPerS">Rate at rest if it leaks (a mended spot: if it leaked).</param>
/// <param name="OpenedOnce">For a relief device: probability that its residue comes from one opening, else 0.</param>
public sealed record SpotBelief(LeakSpot Spot, double Leaking, double Leaked, LeakQuantiles RateKgPerS, double OpenedOnce);
