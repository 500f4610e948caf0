using System.Collections.Immutable;
using Tightcold.Diagnosis.Priors;

namespace Tightcold.Diagnosis.Measurement;

/// <summary>All that speaks about one car in one state of repair.</summary>
public sealed record DiagnosisEvidence(CarKnowledge Car)
{
    public ImmutableArray<OperatingPoint> Points { get; init; } = [];

    public ImmutableArray<StandingPressure> Standing { get; init; } = [];

    public WeighedCharge? Weighed { get; init; }

    public bool IsEmpty => Standing.IsEmpty && Weighed is null
        && Points.All(point => point.Readings.IsEmpty && point.CyclesPerMinute is null
            && point.Clutch == ClutchSeen.NotLooked && point.Glass == GlassSeen.NotLooked && point.Frost == FrostSeen.NotLooked);
}
