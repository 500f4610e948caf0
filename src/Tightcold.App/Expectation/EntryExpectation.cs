using System.Collections.Concurrent;
using System.Collections.Immutable;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Loop;
using Tightcold.Picture.Pressures;
using Tightcold.Properties;
using Tightcold.Quantities;

namespace Tightcold.App.Expectation;

/// <summary>What a sound car would show in the fields of an entry in today's weather, for the lines below the boxes.
/// From the loop model, never called measured.</summary>
public static class EntryExpectation
{
    /// <summary>The range of a field and whose it is.</summary>
    public sealed record Range(Measure Low, Measure High, [Said] string Whose);

    private const int MostDays = 256;

    /// <summary>The same car on the same day is asked for with every reading.</summary>
    private static readonly ConcurrentDictionary<
        (FieldBag Car, int AmbientHalfK, int HumidityTwentieth, int AltitudeHm),
        ImmutableDictionary<string, Range>
    > Known = new();

    private static readonly ImmutableDictionary<string, string> Running = new Dictionary<string, string>
    {
        [FieldNames.LowSide] = FieldNames.LowSide,
        [FieldNames.HighSide] = FieldNames.HighSide,
        ["vent"] = FieldNames.VentTemperature,
        ["suction-line"] = FieldNames.SuctionLineTemperature,
        ["liquid-line"] = FieldNames.LiquidLineTemperature,
        ["discharge-line"] = FieldNames.DischargeLineTemperature,
    }.ToImmutableDictionary();

    /// <summary>By field name; empty where the weather is not known or the model does not reach.</summary>
    public static ImmutableDictionary<string, Range> Of(JobRecord record, string kind, DateTimeOffset moment)
    {
        ArgumentNullException.ThrowIfNull(record);
        var weather = record.WeatherAt(moment);
        if (weather?.Fields.Si(FieldNames.AmbientTemperature) is not { } ambientK)
            return ImmutableDictionary<string, Range>.Empty;
        return kind switch
        {
            EntryKinds.StandingReading => Standing(record.Car, ambientK, AirPressure.At(record, moment).Pascals),
            EntryKinds.RunningReading when ambientK is > LoopLimits.MinAmbientK and < LoopLimits.MaxAmbientK => Sound(
                record.Car,
                ambientK,
                weather.Fields.Si(FieldNames.RelativeHumidity) ?? 0.5,
                record.AltitudeAt(moment)?.Metres ?? 0
            ),
            _ => ImmutableDictionary<string, Range>.Empty,
        };
    }

    /// <summary>With liquid inside, both sides stand at saturation of the air's temperature, give or take what a parked
    /// car differs from it.</summary>
    private static ImmutableDictionary<string, Range> Standing(Car car, double ambientK, double airPa)
    {
        var fluid = FluidCatalog.Get(car.Refrigerant);
        Measure At(double kelvins) =>
            Picture.Pressures.Gauges.Shown(
                fluid.SaturationAtTemperature(Math.Clamp(kelvins, 240, 340)).PressurePa,
                airPa
            );
        var range = new Range(At(ambientK - 2), At(ambientK + 2), "With liquid inside");
        return ImmutableDictionary<string, Range>.Empty.Add(FieldNames.LowSide, range).Add(FieldNames.HighSide, range);
    }

    private static ImmutableDictionary<string, Range> Sound(Car car, double ambientK, double humidity, double altitudeM)
    {
        var key = (
            car.Fields,
            (int)Math.Round(2 * ambientK),
            (int)Math.Round(20 * humidity),
            (int)Math.Round(altitudeM / 100)
        );
        if (Known.TryGetValue(key, out var known))
            return known;
        var day = new ExpectationDay(
            FieldBag
                .Empty.With("ambient", Typed(QuantityKind.Temperature, ambientK))
                .With("humidity", Typed(QuantityKind.RelativeHumidity, Math.Clamp(humidity, 0.02, 1)))
                .With("altitude", Typed(QuantityKind.Altitude, Math.Clamp(altitudeM, -400, 4000)))
        );
        var readings = WhatToExpect.For(car, day, []).Columns[0].Readings;
        var sound = readings
            .Where(reading => Running.ContainsKey(reading.Key) && reading is { Low: not null, High: not null })
            .ToImmutableDictionary(
                reading => Running[reading.Key],
                reading => new Range(
                    new(reading.Kind, reading.Low!.Value),
                    new(reading.Kind, reading.High!.Value),
                    "A sound car today, from a model"
                )
            );
        if (Known.Count >= MostDays)
            Known.Clear();
        return Known[key] = sound;
    }

    private static FieldValue.Quantity Typed(QuantityKind kind, double si) => new(new Measure(kind, si), "");
}
