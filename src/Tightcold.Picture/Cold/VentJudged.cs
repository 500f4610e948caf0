using Tightcold.Diagnosis.Acceptance;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Picture.Pressures;
using Tightcold.Procedures.Cold;
using Tightcold.Properties;
using static Tightcold.Picture.Pressures.Evidence;

namespace Tightcold.Picture.Cold;

/// <summary>One vent reading with what it is judged against.</summary>
public sealed record VentJudged(
    Entry Entry,
    VentObservation Observation,
    bool Recirculated,
    bool ParkedInSun,
    double? SinceStartS
)
{
    /// <summary>Ten minutes after the A/C was switched on the vent stands; two minutes less are let pass.</summary>
    private const double SettledS = 480;

    /// <summary>Nobody wrote the humidity down: this is taken.</summary>
    public const double AssumedHumidity = 0.5;

    /// <summary>From this air on damp air and a hot cabin decide: without them nobody can say cold. Some 28 °C;
    /// assumed.</summary>
    private const double HotK = 301;

    /// <summary>A cabin closed in the sun stands 10 to 25 K above the air; it loses that in some ten minutes. Common
    /// practice.</summary>
    private const double SoakedK = 14,
        SoakedS = 600;

    /// <summary>Recirculated air dries on the coil down to about 8 °C saturation, K.</summary>
    private const double DriedAtK = 281.15;

    public bool HumidityMissing { get; private init; }

    /// <summary>On recirculation, the cabin air's temperature was not read.</summary>
    public bool CabinMissing { get; private init; }
    public bool BlowerMissing { get; private init; }

    /// <summary>Taken for the cabin's warmth above the air, K, where it was not read.</summary>
    public double AssumedSoakK { get; private init; }

    /// <summary>Ten minutes after the A/C was switched on, or nobody said when.</summary>
    public bool IsSettled => !(SinceStartS < SettledS);

    /// <summary>What is missing decides in this weather.</summary>
    public bool AsksFirst => Observation.Weather.AmbientK >= HotK && (HumidityMissing || CabinMissing);

    public static VentJudged Of(JobRecord record, Entry entry, LoopCars cars)
    {
        ArgumentNullException.ThrowIfNull(record);
        ArgumentNullException.ThrowIfNull(entry);
        var kit = record.KitAt(entry.ObservedAt);
        var airPa = AirPressure.At(record, entry.ObservedAt).Pascals;
        var ambientK = entry.Fields.Si(FieldNames.AmbientTemperature)!.Value;
        var humidity = entry.Fields.Si(FieldNames.RelativeHumidity)
            ?? record.WeatherAt(entry.ObservedAt)?.Fields.Si(FieldNames.RelativeHumidity);
        var recirculated = entry.Fields.Text(FieldNames.AirSource) == Chosen.Recirculated;
        var inSun = entry.Fields.Text(FieldNames.Moving) == Chosen.ParkedInTheSun;
        var since = entry.Fields.Si(FieldNames.SinceStart);
        var cabinK = recirculated ? entry.Fields.Si(FieldNames.CabinTemperature) : null;
        var ratio = HumidAir.FromRelativeHumidity(ambientK, humidity ?? AssumedHumidity, airPa).HumidityRatio;
        var (intakeK, sigmaK, soaked) = (ambientK, TemperatureSigma(entry, FieldNames.AmbientTemperature, kit), 0.0);
        if (recirculated)
        {
            soaked = cabinK is null && inSun ? SoakedK * Math.Exp(-(since ?? 0) / SoakedS) : 0;
            (intakeK, sigmaK) = cabinK is { } cabin
                ? (cabin, TemperatureSigma(entry, FieldNames.CabinTemperature, kit) + 1)
                : (ambientK + soaked, inSun ? 7 : 5);
            // Half as dried as the coil can make it.
            ratio = 0.5 * (ratio + Math.Min(ratio, HumidAir.FromRelativeHumidity(DriedAtK, 1, airPa).HumidityRatio));
        }
        bool? moving =
            entry.Fields.Text(FieldNames.Moving) == Chosen.Driving ? true
            : entry.Fields.Si(FieldNames.EngineSpeed) is { } speed ? speed * 60 > 1300
            : entry.Fields.Text(FieldNames.Moving) is null ? null
            : false;
        var observation = VentObservation.Of(
            new(intakeK, ratio, sigmaK, ambientK, airPa, entry.Fields.Text(FieldNames.Blower), moving, since, inSun),
            entry.Fields.Si(FieldNames.VentTemperature)!.Value,
            TemperatureSigma(entry, FieldNames.VentTemperature, kit),
            cars
        );
        return new(entry, observation, recirculated, inSun, since)
        {
            HumidityMissing = humidity is null,
            CabinMissing = recirculated && cabinK is null,
            BlowerMissing = entry.Fields.Text(FieldNames.Blower) is null,
            AssumedSoakK = soaked,
        };
    }
}
