using Tightcold.Jobs.Journals;
using Tightcold.Properties;
using Tightcold.Quantities;

namespace Tightcold.Findings;

/// <summary>The barometric pressure of the place, which turns gauge readings into absolute ones.</summary>
/// <param name="Pascals">Absolute.</param>
/// <param name="SigmaPa">Standard deviation.</param>
/// <param name="Assumption">What was taken for true, or null when a barometer was read here.</param>
public sealed record AirPressure(double Pascals, double SigmaPa, Assumption? Assumption)
{
    /// <summary>Weather moves the barometer about its standard value by this much, Pa, one standard deviation; common practice.</summary>
    private const double WeatherSigmaPa = 900;

    public static AirPressure At(JobRecord record, DateTimeOffset moment)
    {
        var weather = record.WeatherAt(moment);
        if (weather?.Fields.Get<AbsolutePressure>("station-pressure") is { } barometer)
            return new(barometer.Pascals, 150, null);
        if (record.AltitudeAt(moment) is { } altitude)
        {
            var pascals = StandardAtmosphere.PressurePa(altitude.Metres);
            return new(pascals, WeatherSigmaPa, new(
                Phrase.Of($"Air pressure {AbsolutePressure.FromPascals(pascals)} from the altitude of {altitude} by the standard atmosphere; no barometer was read"),
                Phrase.Of($"the weather of the day may shift every gauge by {new Measure(QuantityKind.PressureDifference, WeatherSigmaPa)} either way")));
        }
        return new(101_325, 3000, new(
            Phrase.Of($"Air pressure as at sea level, {AbsolutePressure.FromPascals(101_325)}: neither altitude nor barometer is known"),
            Phrase.Of($"each {Altitude.FromMetres(300)} of altitude would shift the absolute pressures by {new Measure(QuantityKind.PressureDifference, 3500)}")));
    }
}
