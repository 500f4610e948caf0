using Tightcold.Diagnosis.Inference;
using Tightcold.Diagnosis.Measurement;
using Tightcold.Diagnosis.Priors;

namespace Tightcold.Diagnosis.NextTest;

/// <summary>What a test would show if an explanation holds, and how far that would take its odds.</summary>
/// <param name="Channel">What is read; null where it is no gauge or thermometer.</param>
/// <param name="Expected">Where it would come out, SI; charge in kg for a weighing, Pa for a standing reading.</param>
/// <param name="OddsNow">Odds of the explanation now.</param>
/// <param name="OddsThen">Its mean odds after the test if it holds.</param>
public sealed record TestMeaning(
    Hypothesis Hypothesis,
    Channel? Channel,
    Interval Expected,
    double OddsNow,
    double OddsThen
);
