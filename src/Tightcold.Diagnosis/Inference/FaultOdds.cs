using System.Collections.Immutable;
using Tightcold.Diagnosis.Measurement;

namespace Tightcold.Diagnosis.Inference;

/// <summary>What the readings say: explanations with odds, most likely first.</summary>
public sealed class FaultOdds
{
    internal FaultOdds(Posterior posterior) => Posterior = posterior;

    public required ImmutableArray<Belief> Beliefs { get; init; }

    /// <summary>Charge in the circuit over all explanations, kg.</summary>
    public required Interval ChargeKg { get; init; }

    /// <summary>The label's charge, or the assumed one, kg.</summary>
    public required double LabelKg { get; init; }

    public required ImmutableArray<ReadingCheck> Readings { get; init; }

    /// <summary>Share of what the leading explanation would show that fits no better than what was read; below 0.01 it
    /// does not explain the readings.</summary>
    public required double Fit { get; init; }

    /// <summary>True where too few of the tried cars carry the answer; the odds' errors then say how far to trust it.</summary>
    public required bool EvidenceUncertain { get; init; }

    /// <summary>Times the loop model was solved.</summary>
    public required int Solves { get; init; }

    /// <summary>Readings set aside because they cannot be, named.</summary>
    public required ImmutableArray<Contradiction> Contradictions { get; init; }

    public Belief Leading => Beliefs[0];

    /// <summary>Odds of an explanation by its key; 0 for one that is not weighed.</summary>
    public double OddsOf(string key) => Beliefs.FirstOrDefault(belief => belief.Hypothesis.Key == key)?.Odds ?? 0;

    /// <summary>Odds that the charge is below a value, kg.</summary>
    public double OddsChargeBelow(double kilograms) => Posterior.ChargeShareBelow(kilograms / LabelKg);

    internal Posterior Posterior { get; }
}
