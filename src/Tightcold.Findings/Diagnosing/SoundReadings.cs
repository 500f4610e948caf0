using System.Collections.Immutable;
using Tightcold.Diagnosis.Measurement;
using Tightcold.Findings.Steps;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;

namespace Tightcold.Findings.Diagnosing;

/// <summary>
/// Running readings of a car that its own journal shows to have been sound when they were taken: nothing in the circuit was
/// changed after them, and in the end it was proven cold.
/// </summary>
/// <param name="When">When the last of them was taken.</param>
/// <param name="ChargeKg">What was in it by the scale; null where that is not known.</param>
public sealed record SoundReadings(DateTimeOffset When, double? ChargeKg, ImmutableArray<OperatingPoint> Points)
{
    /// <summary>Those of a job; null where it has none.</summary>
    public static SoundReadings? Of(JobRecord record)
    {
        ArgumentNullException.ThrowIfNull(record);
        if (ColdFinding.Of(new JobViews(record)).Judgement != Judgement.Good || JobEvidence.Of(record) is not { Evidence.Points.IsEmpty: false } found)
            return null;
        var taken = found.RestsOn.Select(record.Journal.Find).OfType<Entry>().Where(entry => entry.Kind == EntryKinds.RunningReading).ToList();
        var changed = record.Journal.Standing.Where(entry => entry.Kind is EntryKinds.Recovery or EntryKinds.Opened or EntryKinds.PartChanged or EntryKinds.SealChanged or EntryKinds.OilMoved);
        if (changed.Any(entry => taken.Any(reading => reading.ObservedAt <= entry.ObservedAt)))
            return null;
        return new(taken.Max(entry => entry.ObservedAt), found.Evidence.Weighed?.ChargeKg, found.Evidence.Points);
    }
}
