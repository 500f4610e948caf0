using Tightcold.Diagnosis.Leaks;
using Tightcold.Diagnosis.Tightness;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.LeakTests;
using Tightcold.Picture.Pressures;
using Tightcold.Quantities;

namespace Tightcold.Picture.Leaks;

/// <summary>One look at one spot, whether it was written down for itself or as part of a search of the whole
/// circuit.</summary>
/// <param name="Shown">The pressure in the system then, as a gauge shows it; null where nothing tells.</param>
/// <param name="PressureTaken">That pressure was not read for this look: the last reading's is taken.</param>
public sealed record Look(Entry Entry, LeakTest Test, Measure? Shown, bool PressureTaken)
{
    /// <summary>A pressure read longer ago says nothing of now; assumed.</summary>
    private static readonly TimeSpan PressureLasts = TimeSpan.FromHours(48);

    public LeakTestOutcome Outcome => Test.Outcome;

    /// <summary>What was looked at a spot, in the order of time.</summary>
    public static IEnumerable<Look> At(JobRecord record, string spot)
    {
        ArgumentNullException.ThrowIfNull(record);
        bool Here(string? name) => string.Equals(name, spot, StringComparison.OrdinalIgnoreCase);
        foreach (var entry in record.Journal.Standing)
        {
            if (entry.Kind == EntryKinds.LeakCheck && Here(entry.Fields.Text(FieldNames.Spot)))
                yield return Of(record, entry, OutcomeOf(entry), entry.Fields.Si(FieldNames.TimeSpent));
            else if (entry.Kind == EntryKinds.LeakSearch && !Named(entry, FieldNames.NotReached).Any(Here))
                yield return Of(
                    record,
                    entry,
                    Named(entry, "showed").Any(Here) ? LeakTestOutcome.Clear : LeakTestOutcome.Nothing,
                    SecondsASpot(record, entry)
                );
        }
    }

    /// <summary>Looks that somebody wrote of this spot alone, and where a search showed something.</summary>
    public static IEnumerable<Look> OwnAt(JobRecord record, string spot) =>
        At(record, spot)
            .Where(look => look.Entry.Kind == EntryKinds.LeakCheck || look.Outcome != LeakTestOutcome.Nothing);

    /// <summary>Searches of the whole circuit, as the belief takes them: nothing but where they showed
    /// something.</summary>
    public static IEnumerable<WholeSearch> Searches(JobRecord record)
    {
        ArgumentNullException.ThrowIfNull(record);
        foreach (var entry in record.Journal.OfKind(EntryKinds.LeakSearch))
            yield return new(
                Of(record, entry, LeakTestOutcome.Nothing, SecondsASpot(record, entry)).Test,
                [.. Named(entry, FieldNames.NotReached), .. Named(entry, "showed")]
            );
    }

    public static IEnumerable<string> Named(Entry entry, string field)
    {
        ArgumentNullException.ThrowIfNull(entry);
        return FieldType.Spots.Of(entry.Fields.Text(field));
    }

    private static double? SecondsASpot(JobRecord record, Entry entry) =>
        entry.Fields.Si(FieldNames.TimeSpent)
        / Math.Max(1, SpotState.Names(record).Length - Named(entry, FieldNames.NotReached).Count());

    private static Look Of(JobRecord record, Entry entry, LeakTestOutcome outcome, double? seconds)
    {
        var own = Gauges.Read(record, entry, FieldNames.SystemPressure)?.Pascals;
        var pressure = own ?? LastRead(record, entry.ObservedAt);
        return new(
            entry,
            new(
                LeakTestKind.Find(entry.Fields.Text(FieldNames.Test)) ?? LeakTestKind.Detector,
                outcome,
                pressure,
                seconds,
                entry.Fields.Text(FieldNames.Wind) switch
                {
                    Chosen.Windy => 2,
                    Chosen.Breeze => 1,
                    _ => 0,
                },
                entry.Fields.Text(FieldNames.OldDye) == Chosen.Yes,
                record.Car.Dyed,
                (entry.ObservedAt - record.Job.OpenedAt).TotalSeconds
            ),
            pressure is { } pascals ? Gauges.Shown(pascals, AirPressure.At(record, entry.ObservedAt).Pascals) : null,
            own is null && pressure is not null
        );
    }

    /// <summary>Pressure that stood in the system then as far as the journal knows, absolute; null when nothing
    /// tells.</summary>
    public static double? LastRead(JobRecord record, DateTimeOffset then)
    {
        ArgumentNullException.ThrowIfNull(record);
        foreach (var entry in record.Journal.Standing.Reverse())
        {
            if (entry.ObservedAt > then)
                continue;
            if (then - entry.ObservedAt > PressureLasts)
                return null;
            if (entry.Kind is EntryKinds.Opened or EntryKinds.Recovery or EntryKinds.Pump)
                return AirPressure.At(record, entry.ObservedAt).Pascals;
            // What was filled in since has another pressure.
            if (
                entry.Kind == EntryKinds.ContainerMoved
                && entry.Fields.Text(FieldNames.Action) is Chosen.Opened or Chosen.Emptied
            )
                return null;
            var gauge = entry.Kind switch
            {
                EntryKinds.StandingReading => Gauges.Read(record, entry, FieldNames.LowSide)
                    ?? Gauges.Read(record, entry, FieldNames.HighSide),
                EntryKinds.PressureTest => Gauges.Read(record, entry, "pressure"),
                EntryKinds.LeakCheck or EntryKinds.LeakSearch => Gauges.Read(record, entry, FieldNames.SystemPressure),
                _ => (AbsoluteReading?)null,
            };
            if (gauge is { } read)
                return read.Pascals;
        }
        return null;
    }

    private static LeakTestOutcome OutcomeOf(Entry entry) =>
        entry.Fields.Text(FieldNames.Outcome) switch
        {
            Chosen.ClearLeak => LeakTestOutcome.Clear,
            Chosen.Trace => LeakTestOutcome.Trace,
            _ => LeakTestOutcome.Nothing,
        };
}
