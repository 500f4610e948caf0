using Tightcold.Jobs.Journals;
using Tightcold.Quantities;

namespace Tightcold.App.Desk;

/// <summary>The air pressure of the place at a moment: a barometer that was read there, else nothing.</summary>
internal static class Barometer
{
    public static AbsolutePressure? At(JobRecord record, DateTimeOffset moment) =>
        record.WeatherAt(moment)?.Fields.Get<AbsolutePressure>("station-pressure");
}
