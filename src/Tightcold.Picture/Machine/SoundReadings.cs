using System.Collections.Immutable;
using Tightcold.Diagnosis.Measurement;
using Tightcold.Jobs.Entries;
using Tightcold.Picture.Cold;

namespace Tightcold.Picture.Machine;

/// <summary>
/// Running readings of a car that its own journal shows to have been sound when they were taken: nothing in the circuit
/// was changed after them, and in the end it was proven cold.
/// </summary>
/// <param name="When">When the last of them was taken.</param>
/// <param name="Weighed">What was in it by the scale; null where that is not known.</param>
public sealed record SoundReadings(DateTimeOffset When, WeighedCharge? Weighed, ImmutableArray<OperatingPoint> Points)
{
    /// <summary>Those of a job; null where it has none.</summary>
    public static SoundReadings? Of(JobPicture picture)
    {
        ArgumentNullException.ThrowIfNull(picture);
        var record = picture.Record;
        if (
            picture.Cold is not { Outcome: ColdOutcome.Proven }
            || picture.Evidence is not { Evidence.Points.IsEmpty: false } found
        )
            return null;
        var taken = found
            .RestsOn.Select(record.Journal.Find)
            .OfType<Entry>()
            .Where(entry => entry.Kind == EntryKinds.RunningReading)
            .ToList();
        var end = picture.Timeline.Now.Epoch;
        if (taken.Count == 0 || taken.Any(entry => picture.Timeline.After(entry).Epoch != end))
            return null;
        return new(taken.Max(entry => entry.ObservedAt), found.Evidence.Weighed, found.Evidence.Points);
    }
}
