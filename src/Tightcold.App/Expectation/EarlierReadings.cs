using System.Collections.Immutable;
using Tightcold.Diagnosis.Measurement;
using Tightcold.Loop;
using Tightcold.Loop.Calibration;
using Tightcold.Picture;
using Tightcold.Picture.Machine;

namespace Tightcold.App.Expectation;

/// <summary>What this car read in earlier jobs while it was sound, ready for calibration.</summary>
/// <param name="Last">When the last of them was taken; null where there are none.</param>
public sealed record EarlierReadings(ImmutableArray<HealthyPoint> Points, DateTimeOffset? Last)
{
    public static EarlierReadings None { get; } = new([], null);

    /// <summary>From all jobs of one car.</summary>
    public static EarlierReadings Of(IEnumerable<JobPicture> jobs)
    {
        ArgumentNullException.ThrowIfNull(jobs);
        var sound = jobs.Select(SoundReadings.Of).OfType<SoundReadings>().ToList();
        ImmutableArray<HealthyPoint> points =
        [
            .. sound.SelectMany(one => one.Points.Where(Usable).Select(point => Point(point, one.Weighed?.ChargeKg))),
        ];
        return points.IsEmpty ? None : new(points, sound.Max(one => one.When));
    }

    private static bool Usable(OperatingPoint point) =>
        point.Aid == Aid.None
        && point.AmbientK is >= LoopLimits.MinAmbientK and <= LoopLimits.MaxAmbientK
        && point.Readings.Any(reading => Channel(reading, point) is not null);

    private static HealthyPoint Point(OperatingPoint point, double? chargeKg) =>
        new(
            point.MiddleConditions,
            chargeKg,
            [
                .. point
                    .Readings.Where(reading => Channel(reading, point) is not null)
                    .Select(reading => new HealthyReading(
                        Channel(reading, point)!.Value,
                        reading.Value,
                        reading.SigmaInstrument
                    )),
            ]
        );

    /// <summary>A low side whose swing was read is no middle and is left out.</summary>
    private static HealthyChannel? Channel(Reading reading, OperatingPoint point) =>
        reading.Channel switch
        {
            Diagnosis.Measurement.Channel.LowSide => point.Readings.Any(other =>
                other.Channel == Diagnosis.Measurement.Channel.LowSwingTop
            )
                ? null
                : HealthyChannel.LowSide,
            Diagnosis.Measurement.Channel.HighSide => HealthyChannel.HighSide,
            Diagnosis.Measurement.Channel.Vent => HealthyChannel.Vent,
            Diagnosis.Measurement.Channel.SuctionLine => HealthyChannel.SuctionLine,
            Diagnosis.Measurement.Channel.LiquidLine => HealthyChannel.LiquidLine,
            Diagnosis.Measurement.Channel.DischargeLine => HealthyChannel.DischargeLine,
            _ => null,
        };
}
