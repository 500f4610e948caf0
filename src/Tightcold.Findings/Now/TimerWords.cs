using Tightcold.Picture.Circuit;

namespace Tightcold.Findings.Now;

/// <summary>What runs, in words.</summary>
public static class TimerWords
{
    public static string What(WorkTimer timer)
    {
        ArgumentNullException.ThrowIfNull(timer);
        return timer.Kind switch
        {
            TimerKind.PumpingDown => "Pumping down",
            TimerKind.Holding or TimerKind.LastOfTheHold => "Holding, valve to the pump shut",
            TimerKind.CircuitOpen => $"Circuit open at {timer.Where}",
            _ => $"Valve open on {timer.Where}",
        };
    }

    public static string Then(WorkTimer timer)
    {
        ArgumentNullException.ThrowIfNull(timer);
        return timer.Kind switch
        {
            TimerKind.PumpingDown => "Read the vacuum at the far port; then shut the valve to the pump and hold",
            TimerKind.Holding => "Read the vacuum and the temperature of the parts",
            TimerKind.LastOfTheHold => "Last reading of the hold",
            TimerKind.CircuitOpen => "Cap or close it: the drier takes up the air's water",
            _ => "Read the scale, and close the valve at its mark",
        };
    }
}
