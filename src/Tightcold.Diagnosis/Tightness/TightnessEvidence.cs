using System.Collections.Immutable;
using Tightcold.Diagnosis.Leaks;

namespace Tightcold.Diagnosis.Tightness;

/// <summary>
/// All that is known of a car's leaks, as plain numbers: SI, absolute pressures, seconds on one clock of the caller's
/// choice. What a person struck out is not in it.
/// </summary>
/// <param name="Setting">The refrigerant and the air of the place.</param>
/// <param name="Spots">Of the circuit, each with its own checks and its last repair.</param>
public sealed record TightnessEvidence(
    LeakSetting Setting,
    CircuitSize Size,
    ImmutableArray<LeakSpot> Spots,
    TightnessQuestion Question
)
{
    public ImmutableArray<WholeSearch> Searches { get; init; } = [];
    public ImmutableArray<VacuumHold> Holds { get; init; } = [];
    public ImmutableArray<NitrogenTest> Nitrogen { get; init; } = [];
    public ImmutableArray<StandingWatch> Standings { get; init; } = [];

    /// <summary>In the order of time.</summary>
    public ImmutableArray<ChargeEvent> Charges { get; init; } = [];

    /// <summary>Losses that the caller worked out himself; not also in <see cref="Charges"/>.</summary>
    public ImmutableArray<MassLoss> Losses { get; init; } = [];
    public ImmutableArray<CircuitOpening> Openings { get; init; } = [];
    public WaterEvidence Water { get; init; } = WaterEvidence.Nothing;
    public WhyItCame Came { get; init; }

    /// <summary>What the kit could do next, under the conditions as they would be.</summary>
    public TightnessMeans Means { get; init; } = TightnessMeans.None;
}
