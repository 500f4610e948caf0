using Tightcold.Jobs.Journals;
using Tightcold.Properties;
using Tightcold.Quantities;

namespace Tightcold.App.Desk;

/// <summary>The air pressure of the place at a moment: a barometer that was read there, else the standard atmosphere
/// at its altitude, else unknown; never sea level by silence.</summary>
internal static class Barometer
{
    public static AbsolutePressure? At(JobRecord record, DateTimeOffset moment) =>
        record.WeatherAt(moment)?.Fields.Get<AbsolutePressure>("station-pressure")
        ?? (record.AltitudeAt(moment) is { } altitude ? AbsolutePressure.FromPascals(StandardAtmosphere.PressurePa(altitude.Metres)) : null);
}
