using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Picture.Pressures;
using Tightcold.Procedures.Evacuation;
using Tightcold.Properties;
using static Tightcold.Picture.Pressures.Evidence;

namespace Tightcold.Picture.Vacuum;

/// <summary>A pump-down as numbers: what was expected with this pump, these hoses and this weather, and what the gauge
/// showed.</summary>
public sealed record PumpView(
    EvacuationSetup Setup,
    EvacuationForecast Forecast,
    ImmutableArray<(double Seconds, double PressurePa, double SigmaPa, bool OnDial)> Observed,
    ImmutableArray<Assumption> Assumptions,
    double VapourKgPerM3
)
{
    /// <summary>A small two-stage pump of 70 L/min; common practice.</summary>
    private const double UsualPumpM3PerS = 1.17e-3;

    /// <param name="before">Of a moment ago; what was expected of the same pump and circuit is not worked out
    /// again.</param>
    public static PumpView Of(JobPicture picture, PumpView? before = null)
    {
        ArgumentNullException.ThrowIfNull(picture);
        var record = picture.Record;
        var start = record
            .Journal.OfKind(EntryKinds.Pump)
            .LastOrDefault(entry => entry.Fields.Text(FieldNames.Action) == Chosen.Started);
        var moment = start?.ObservedAt
            ?? (record.Journal.Standing.Length > 0 ? record.Journal.Standing[^1].ObservedAt : record.Job.OpenedAt);
        var kit = record.KitAt(moment);
        var assumptions = ImmutableArray.CreateBuilder<Quantities.Phrase>();
        var rows = VacuumReadings.SincePumpStart(picture).Where(row => start is not null && !row.HosesAlone).ToArray();
        var weather = record.WeatherAt(moment);
        var partK = rows.Select(row => row.Reading.TemperatureK).LastOrDefault(kelvins => kelvins is not null)
            ?? weather?.Fields.Si(FieldNames.AmbientTemperature)
            ?? 293.15;
        if (!kit.Has(FieldNames.PumpFreeAir))
            assumptions.Add(
                Quantities.Phrase.Of(
                    $"A pump of {new Quantities.Measure(Quantities.QuantityKind.VolumeFlow, UsualPumpM3PerS)}: none "
                        + $"is in the kit"
                )
            );
        var (waterKg, spread, vapour) = Water(picture, moment, partK);
        var setup = new EvacuationSetup(
            kit.Fields.Si(FieldNames.PumpFreeAir) ?? UsualPumpM3PerS,
            kit.PumpUltimatePa,
            kit.HoseBoreM,
            kit.HoseLengthM,
            start?.Fields.Text(FieldNames.Sides) is null or "both sides",
            start?.Fields.Text(FieldNames.Cores) != Chosen.Removed,
            VolumeOf(record.Car).M3 + 2 * kit.HoseVolumeM3,
            AirPressure.At(record, moment).Pascals,
            Math.Clamp(partK, 240, 330),
            waterKg,
            spread,
            OilM3(record.Car)
        );
        var observed = rows.Where(row => !row.Isolated)
            .Select(row =>
                ((row.Entry.ObservedAt - moment).TotalSeconds, row.Reading.PressurePa, row.Reading.SigmaPa, row.OnDial)
            )
            .ToImmutableArray();
        return new(
            setup,
            before?.Setup == setup ? before.Forecast : EvacuationForecast.Of(setup, (ulong)(uint)record.Job.Seed),
            observed,
            [
                .. assumptions.Select(what => new Assumption(
                    what,
                    Quantities.Phrase.Words("the time to pump follows it")
                )),
            ],
            vapour
        );
    }

    /// <summary>How long the circuit stood open, in which air, and whether a new drier went in.</summary>
    private static (double Kilograms, double Spread, double VapourKgPerM3) Water(
        JobPicture picture,
        DateTimeOffset moment,
        double temperatureK
    )
    {
        var humidity = picture.Record.WeatherAt(moment)?.Fields.Si(FieldNames.RelativeHumidity) ?? 0.6;
        // Vapour density by the gas law, R = 461.5 J/(kg·K).
        var vapour =
            humidity * WaterVapour.SaturationPressurePa(Math.Clamp(temperatureK, 250, 330)) / (461.5 * temperatureK);
        var drier = picture.Mend.Drier;
        // Found open: nobody knows how long; days in that air are taken.
        var openSeconds = picture.Timeline.At(moment).CameOpen ? 3 * 86_400 : drier.OpenFor?.TotalSeconds ?? 0;
        var (kilograms, spread) = WaterGuess.Of(openSeconds, vapour, drier.Renewed);
        return (kilograms, spread, vapour);
    }
}
