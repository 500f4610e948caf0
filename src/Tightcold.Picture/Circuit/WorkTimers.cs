using System.Collections.Immutable;

namespace Tightcold.Picture.Circuit;

/// <summary>What goes on and must be looked at.</summary>
public enum TimerKind
{
    PumpingDown,
    Holding,
    LastOfTheHold,
    CircuitOpen,

    /// <summary>A can's valve stands open towards the circuit.</summary>
    ContainerGives,
}

/// <summary>Something that is going on and should be looked at by a certain moment. It lives in the journal: any
/// device that opens the job shows the same time left.</summary>
/// <param name="Where">The spot or the container; else null.</param>
public sealed record WorkTimer(TimerKind Kind, string? Where, DateTimeOffset Since, DateTimeOffset Due);

/// <summary>What runs, by the timeline: it ends when a later entry ends it.</summary>
public static class WorkTimers
{
    /// <summary>Between readings of a hold, and how long an ordinary one lasts; common practice.</summary>
    private static readonly TimeSpan BetweenReadings = TimeSpan.FromMinutes(8),
        HoldLength = TimeSpan.FromMinutes(32);

    /// <summary>A drier in an open circuit: common practice, under 5 to 10 minutes.</summary>
    private static readonly TimeSpan OpenCircuit = TimeSpan.FromMinutes(10);

    /// <summary>A can that gives is looked at every few minutes; assumed.</summary>
    private static readonly TimeSpan OpenValve = TimeSpan.FromMinutes(5);

    /// <summary>A pump is never left alone for longer without a look, whatever was computed.</summary>
    private static readonly TimeSpan LongestPumping = TimeSpan.FromHours(2);

    public static ImmutableArray<WorkTimer> Of(JobPicture picture)
    {
        ArgumentNullException.ThrowIfNull(picture);
        if (picture.Record.State == "closed")
            return [];
        var state = picture.Timeline.Now;
        var timers = ImmutableArray.CreateBuilder<WorkTimer>();
        if (state is { PumpingSince: { } pumping, Holding: null })
        {
            var forecast = picture.Pump.Forecast;
            var seconds = Math.Min(
                forecast.SureSeconds ?? forecast.EnoughSeconds ?? double.MaxValue,
                LongestPumping.TotalSeconds
            );
            timers.Add(new(TimerKind.PumpingDown, null, pumping, pumping.AddSeconds(seconds)));
        }
        if (state.Holding is { } hold)
        {
            var end = hold.First + HoldLength;
            var next = hold.Last + BetweenReadings;
            timers.Add(
                next < end
                    ? new(TimerKind.Holding, null, hold.Last, next)
                    : new(TimerKind.LastOfTheHold, null, hold.First, end)
            );
        }
        foreach (var open in state.Open)
            timers.Add(new(TimerKind.CircuitOpen, open.Spot, open.Since, open.Since + OpenCircuit));
        if (state.Giving is { } giving)
            timers.Add(new(TimerKind.ContainerGives, giving.Name, giving.Since, giving.Since + OpenValve));
        return [.. timers.OrderBy(timer => timer.Due)];
    }
}
