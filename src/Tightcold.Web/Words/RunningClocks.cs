using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;

namespace Tightcold.Web.Words;

/// <summary>What is going on right now, read from the journal: the pump runs, the vacuum is holding, the circuit or
/// a can stands open. Timers live in the data; a page only shows how long.</summary>
public static class RunningClocks
{
    public sealed record Clock(string What, DateTimeOffset Since);

    public static IReadOnlyList<Clock> Of(JobRecord record)
    {
        var clocks = new List<Clock>();
        if (record.State == "closed") return clocks;
        var journal = record.Journal;
        if (journal.Last(EntryKinds.Pump) is { } pump && pump.Fields.Text("action") == "started")
            clocks.Add(new("Pump running", pump.ObservedAt));
        if (HoldSince(journal) is { } hold) clocks.Add(new("Holding, valve to the pump shut", hold));
        foreach (var spot in journal.OfKind(EntryKinds.Opened).Select(entry => entry.Fields.Text("spot")).Distinct())
        {
            var opened = journal.OfKind(EntryKinds.Opened).Last(entry => entry.Fields.Text("spot") == spot);
            var closedLater = journal.OfKind(EntryKinds.Closed).Any(entry => entry.Fields.Text("spot") == spot && entry.ObservedAt >= opened.ObservedAt);
            if (!closedLater) clocks.Add(new($"Circuit open at {spot}", opened.ObservedAt));
        }
        foreach (var can in journal.OfKind(EntryKinds.ContainerMoved).GroupBy(entry => entry.Fields.Text("container")))
            if (can.Last().Fields.Text("action") == "opened")
                clocks.Add(new($"Valve open on {can.Key}", can.Last().ObservedAt));
        return clocks;
    }

    /// <summary>From the first reading with the pump valve shut after the last pumping, until a can is opened.</summary>
    private static DateTimeOffset? HoldSince(Journal journal)
    {
        DateTimeOffset? since = null;
        foreach (var entry in journal.Standing)
        {
            since = entry.Kind switch
            {
                EntryKinds.VacuumReading when entry.Fields.Text("pump-valve") == "shut" => since ?? entry.ObservedAt,
                EntryKinds.VacuumReading => null,
                EntryKinds.Pump when entry.Fields.Text("action") == "started" => null,
                EntryKinds.ContainerMoved when entry.Fields.Text("action") == "opened" => null,
                EntryKinds.Opened or EntryKinds.VentReading or EntryKinds.RunningReading => null,
                _ => since,
            };
        }
        return since;
    }
}
