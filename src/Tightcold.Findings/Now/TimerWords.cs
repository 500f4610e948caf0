using Tightcold.Findings.Steps;
using Tightcold.Picture.Circuit;
using Tightcold.Quantities;

namespace Tightcold.Findings.Now;

/// <summary>What runs, in words.</summary>
public static class TimerWords
{
    public static Phrase What(WorkTimer timer)
    {
        ArgumentNullException.ThrowIfNull(timer);
        return timer.Kind switch
        {
            TimerKind.PumpingDown => Phrase.Words("Pumping down"),
            TimerKind.Holding or TimerKind.LastOfTheHold => Phrase.Words("Holding, valve to the pump shut"),
            TimerKind.CircuitOpen => Phrase.Of($"Circuit open at {SpotWords.Name(timer.Where ?? "")}"),
            _ => Phrase.Of($"Valve open on {Phrase.Verbatim(timer.Where ?? "")}"),
        };
    }

    [Said]
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
