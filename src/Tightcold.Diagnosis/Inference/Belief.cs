using System.Collections.Immutable;
using Tightcold.Diagnosis.Priors;

namespace Tightcold.Diagnosis.Inference;

/// <summary>One explanation after the evidence.</summary>
/// <param name="Hypothesis">The explanation, with its odds before the evidence.</param>
/// <param name="Odds">0 to 1; those of a diagnosis sum to 1.</param>
/// <param name="OddsError">Standard error of the odds from the finite number of cars tried.</param>
/// <param name="Effective">Number of tried cars that the answer is worth; low numbers make it uncertain.</param>
public sealed record Belief(Hypothesis Hypothesis, double Odds, double OddsError, double Effective)
{
    /// <summary>The odds by the readings alone; the same without a history.</summary>
    public double OddsWithoutHistory { get; init; } = Odds;

    /// <summary>For each fault its severity in its own measure; empty where there is none.</summary>
    public ImmutableArray<Interval> Severities { get; init; } = [];

    /// <summary>Charge over the label's, if this explanation holds.</summary>
    public Interval ChargeShare { get; init; }

    /// <summary>How each thing looked at, felt or tried speaks, strongest first.</summary>
    public ImmutableArray<SignReason> SignReasons { get; init; } = [];

    /// <summary>How each reading speaks, strongest first.</summary>
    public ImmutableArray<Reason> Reasons { get; init; } = [];
}
