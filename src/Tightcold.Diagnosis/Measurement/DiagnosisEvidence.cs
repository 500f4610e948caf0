using System.Collections.Immutable;
using Tightcold.Diagnosis.Priors;

namespace Tightcold.Diagnosis.Measurement;

/// <summary>All that speaks about one car in one state of repair.</summary>
public sealed record DiagnosisEvidence(CarKnowledge Car)
{
    public ImmutableArray<OperatingPoint> Points { get; init; } = [];

    public ImmutableArray<StandingPressure> Standing { get; init; } = [];

    public WeighedCharge? Weighed { get; init; }

    /// <summary>The last filling before these readings; null when nobody knows of one.</summary>
    public ChargeHistory? History { get; init; }

    /// <summary>Equal in every number and word: the same answer follows from both.</summary>
    public bool SaysTheSameAs(DiagnosisEvidence other)
    {
        ArgumentNullException.ThrowIfNull(other);
        return Car == other.Car && Weighed == other.Weighed && History == other.History && Standing.SequenceEqual(other.Standing)
            && Points.Length == other.Points.Length && Points.Zip(other.Points).All(pair => Same(pair.First, pair.Second));
    }

    // Arrays are equal to themselves alone: readings are compared one by one, the rest as a whole.
    private static bool Same(OperatingPoint one, OperatingPoint other) =>
        one.Readings.SequenceEqual(other.Readings) && one with { Readings = [] } == other with { Readings = [] };

    public bool IsEmpty => Standing.IsEmpty && Weighed is null
        && Points.All(point => point.Readings.IsEmpty && point.CyclesPerMinute is null
            && point.Clutch == ClutchSeen.NotLooked && point.Glass == GlassSeen.NotLooked && point.Frost == FrostSeen.NotLooked);
}
