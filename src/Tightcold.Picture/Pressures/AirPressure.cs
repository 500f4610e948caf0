using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Properties;
using Tightcold.Quantities;

namespace Tightcold.Picture.Pressures;

/// <summary>How the air pressure of a place is known.</summary>
public enum AirKnown
{
    /// <summary>A barometer was read there.</summary>
    Barometer,

    /// <summary>From the altitude by the standard atmosphere.</summary>
    Altitude,

    /// <summary>Neither is known: sea level is taken, and said so.</summary>
    SeaLevelAssumed,
}

/// <summary>The barometric pressure of the place, which turns gauge readings into absolute ones.</summary>
/// <param name="Pascals">Absolute.</param>
/// <param name="SigmaPa">Standard deviation.</param>
/// <param name="From">How it is known.</param>
/// <param name="Altitude">The altitude it was computed from; else null.</param>
public sealed record AirPressure(double Pascals, double SigmaPa, AirKnown From, Altitude? Altitude = null)
{
    /// <summary>Weather moves the barometer about its standard value by this much, Pa, one standard deviation; common
    /// practice.</summary>
    private const double WeatherSigmaPa = 900;

    /// <summary>Of a barometer read on the spot, Pa; assumed.</summary>
    private const double BarometerSigmaPa = 150;

    /// <summary>Sea level stands for anything from there to some 500 m, Pa; assumed.</summary>
    private const double SeaLevelPa = 101_325,
        SeaLevelSigmaPa = 3000;

    public static AirPressure At(JobRecord record, DateTimeOffset moment)
    {
        ArgumentNullException.ThrowIfNull(record);
        if (record.WeatherAt(moment)?.Fields.Get<AbsolutePressure>(FieldNames.StationPressure) is { } barometer)
            return new(barometer.Pascals, BarometerSigmaPa, AirKnown.Barometer);
        return record.AltitudeAt(moment) is { } altitude
            ? new(StandardAtmosphere.PressurePa(altitude.Metres), WeatherSigmaPa, AirKnown.Altitude, altitude)
            : new(SeaLevelPa, SeaLevelSigmaPa, AirKnown.SeaLevelAssumed);
    }

    /// <summary>The pressure where it is known; null where sea level would be assumed.</summary>
    public AbsolutePressure? Known => From == AirKnown.SeaLevelAssumed ? null : AbsolutePressure.FromPascals(Pascals);

    /// <summary>What was taken for true, or null when a barometer was read here.</summary>
    public Assumption? Assumption =>
        From switch
        {
            AirKnown.Barometer => null,
            AirKnown.Altitude => new(
                Phrase.Of(
                    $"Air pressure {AbsolutePressure.FromPascals(Pascals)} from the altitude of {Altitude!.Value}; no "
                        + $"barometer was read"
                ),
                Phrase.Of(
                    $"the day's weather may shift every gauge by "
                        + $"{new Measure(QuantityKind.PressureDifference, WeatherSigmaPa)} either way"
                )
            ),
            _ => new(
                Phrase.Of(
                    $"Air pressure as at sea level, {AbsolutePressure.FromPascals(Pascals)}: neither altitude nor "
                        + $"barometer is known"
                ),
                Phrase.Of(
                    $"each {Tightcold.Quantities.Altitude.FromMetres(300)} of altitude shifts the absolute pressures "
                        + $"by {new Measure(QuantityKind.PressureDifference, 3500)}"
                )
            ),
        };
}
