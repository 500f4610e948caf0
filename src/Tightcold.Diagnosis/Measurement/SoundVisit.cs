using System.Collections.Immutable;

namespace Tightcold.Diagnosis.Measurement;

/// <summary>What this very car read at an earlier visit that ended with it sound.</summary>
/// <param name="Points">Ways of running, and what was read then.</param>
/// <param name="Weighed">What was in it by the scale; null where nobody knows.</param>
/// <param name="SecondsBefore">Before the readings that are weighed now, above 0.</param>
public sealed record SoundVisit(ImmutableArray<OperatingPoint> Points, WeighedCharge? Weighed, double SecondsBefore)
{
    /// <summary>Equal in every number and word.</summary>
    public bool SaysTheSameAs(SoundVisit other)
    {
        ArgumentNullException.ThrowIfNull(other);
        return Weighed == other.Weighed
            && SecondsBefore.Equals(other.SecondsBefore)
            && Points.Length == other.Points.Length
            && Points.Zip(other.Points).All(pair => pair.First.SaysTheSameAs(pair.Second));
    }
}
