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

    /// <summary>Why the readings were taken.</summary>
    public ReadingReason Why { get; init; }

    /// <summary>Odds of “nothing wrong” before any reading where somebody knows them, 0.01 to 0.96; null takes those of
    /// <see cref="Why"/>.</summary>
    public double? SoundBefore { get; init; }

    /// <summary>What was looked at, felt or tried beside the readings.</summary>
    public ImmutableArray<Sign> Signs { get; init; } = [];

    /// <summary>Earlier visits at which this very car was sound, since when nothing that decides was changed.</summary>
    public ImmutableArray<SoundVisit> Earlier { get; init; } = [];

    /// <summary>Equal in every number and word: the same answer follows from both.</summary>
    public bool SaysTheSameAs(DiagnosisEvidence other)
    {
        ArgumentNullException.ThrowIfNull(other);
        return Car == other.Car
            && Why == other.Why
            && SoundBefore == other.SoundBefore
            && Signs.SequenceEqual(other.Signs)
            && Weighed == other.Weighed
            && History == other.History
            && Standing.SequenceEqual(other.Standing)
            && Points.Length == other.Points.Length
            && Points.Zip(other.Points).All(pair => pair.First.SaysTheSameAs(pair.Second))
            && Earlier.Length == other.Earlier.Length
            && Earlier.Zip(other.Earlier).All(pair => pair.First.SaysTheSameAs(pair.Second));
    }

    public bool IsEmpty =>
        Standing.IsEmpty
        && Weighed is null
        && Signs.IsEmpty
        && Points.All(point =>
            point.Readings.IsEmpty
            && point.CyclesPerMinute is null
            && point.Clutch == ClutchSeen.NotLooked
            && point.Glass == GlassSeen.NotLooked
            && point.Frost == FrostSeen.NotLooked
        );
}
