using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;

namespace Tightcold.Findings;

/// <summary>Something that is going on and should be looked at by a certain moment. It lives in the journal: any
/// device that opens the job shows the same time left.</summary>
/// <param name="What">What is going on.</param>
/// <param name="Then">What to do when the time is up.</param>
public sealed record WorkTimer(string What, string Then, DateTimeOffset Since, DateTimeOffset Due);

/// <summary>Reads the timers off a journal.</summary>
public static class WorkTimers
{
    /// <summary>Between readings of a hold, and how long an ordinary one lasts; common practice.</summary>
    private static readonly TimeSpan BetweenReadings = TimeSpan.FromMinutes(8), HoldLength = TimeSpan.FromMinutes(32);

    /// <summary>A drier in an open circuit: common practice, under 5 to 10 minutes.</summary>
    private static readonly TimeSpan OpenCircuit = TimeSpan.FromMinutes(10);

    /// <summary>A pump is never left alone for longer without a look, whatever was computed.</summary>
    private static readonly TimeSpan LongestPumping = TimeSpan.FromHours(2);

    public static ImmutableArray<WorkTimer> Of(JobRecord record)
    {
        var timers = ImmutableArray.CreateBuilder<WorkTimer>();
        if (record.State == "closed") return [];
        var holding = Holding(record.Journal);
        if (record.Journal.Last(EntryKinds.Pump) is { } pump && pump.Fields.Text("action") == "started" && holding is null)
        {
            var seconds = PumpView.Of(record).Forecast is var forecast && (forecast.SureSeconds ?? forecast.EnoughSeconds) is { } enough
                ? Math.Min(enough, LongestPumping.TotalSeconds) : LongestPumping.TotalSeconds;
            timers.Add(new("Pumping down", "Read the vacuum at the far port; then shut the valve to the pump and hold", pump.ObservedAt, pump.ObservedAt.AddSeconds(seconds)));
        }
        if (holding is { } hold)
        {
            var end = hold.First + HoldLength;
            var next = hold.Last + BetweenReadings;
            timers.Add(next < end ? new("Holding", "Read the vacuum and the temperature of the parts", hold.Last, next)
                : new WorkTimer("Holding", "Last reading of the hold", hold.First, end));
        }
        foreach (var opened in record.Journal.OfKind(EntryKinds.Opened))
        {
            var spot = opened.Fields.Text("spot") ?? "";
            if (record.Journal.OfKind(EntryKinds.Closed).Any(entry => entry.ObservedAt >= opened.ObservedAt && string.Equals(entry.Fields.Text("spot"), spot, StringComparison.OrdinalIgnoreCase))) continue;
            timers.Add(new($"Circuit open at {spot}", "Cap or close it: the drier takes up the air's water", opened.ObservedAt, opened.ObservedAt + OpenCircuit));
        }
        return [.. timers.OrderBy(timer => timer.Due)];
    }

    /// <summary>First and last reading of a hold that is still going on.</summary>
    private static (DateTimeOffset First, DateTimeOffset Last)? Holding(Journal journal)
    {
        (DateTimeOffset First, DateTimeOffset Last)? holding = null;
        foreach (var entry in journal.Standing)
        {
            if (entry.Kind == EntryKinds.VacuumReading)
                holding = entry.Fields.Text("pump-valve") == "shut" ? (holding?.First ?? entry.ObservedAt, entry.ObservedAt) : null;
            else if (entry.Kind is EntryKinds.Pump or EntryKinds.ContainerMoved or EntryKinds.Opened or EntryKinds.RunningReading or EntryKinds.VentReading)
                holding = entry.Kind == EntryKinds.Pump && entry.Fields.Text("action") == "stopped" ? holding : null;
        }
        return holding;
    }
}
