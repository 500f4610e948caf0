using System.Collections.Immutable;
using Tightcold.App.Gauges;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;

namespace Tightcold.Pages.Shown;

/// <summary>A gauge's log on its way in: the file's text travels in the form, so that nothing is kept of a log that is
/// not taken in.</summary>
/// <param name="Sending">Makes the ids of the entries, so that sending twice writes once.</param>
/// <param name="Text">Of the file; blank while none was chosen.</param>
/// <param name="Look">Its columns.</param>
/// <param name="Asked">What the person chose.</param>
/// <param name="Lines">What was understood; empty until asked.</param>
public sealed record GaugeLogModel(
    JobRecord Record,
    Guid Sending,
    string Text,
    GaugeLogLook? Look,
    GaugeLogChoice Asked,
    ImmutableArray<GaugeLog.Line> Lines,
    IReadOnlyList<InputProblem> Problems
);

/// <summary>The choices of the form, as typed.</summary>
public sealed record GaugeLogChoice(
    string Time,
    string TimeUnit,
    string Pressure,
    string PressureUnit,
    string Temperature,
    string TemperatureUnit,
    string Start,
    string What
)
{
    public const string PumpDown = "pump-down",
        Hold = "hold",
        Hoses = "hoses";
}
