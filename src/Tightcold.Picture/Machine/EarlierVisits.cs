using System.Collections.Immutable;
using Tightcold.Diagnosis.Leaks;
using Tightcold.Diagnosis.Measurement;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;

namespace Tightcold.Picture.Machine;

/// <summary>Earlier visits of the car at which it was sound, as far as they still speak of it: what it read then
/// narrows what a sound car like this one would read today.</summary>
internal static class EarlierVisits
{
    /// <summary>Older ones add little and cost time.</summary>
    private const int Most = 3;

    /// <param name="picture">The job whose readings are to be weighed.</param>
    /// <param name="readings">When the first of them was taken.</param>
    /// <returns>The visits, the earliest first, and when the last of them was.</returns>
    public static (ImmutableArray<SoundVisit> Visits, DateTimeOffset? Last) Of(
        JobPicture picture,
        DateTimeOffset readings
    )
    {
        var visits = ImmutableArray.CreateBuilder<SoundVisit>();
        DateTimeOffset? last = null;
        if (Changed(picture, readings))
            return ([], null);
        foreach (var job in picture.EarlierPictures.Reverse())
        {
            if (SoundReadings.Of(job) is { } sound && sound.When < readings)
            {
                ImmutableArray<OperatingPoint> points =
                [
                    .. sound.Points.Where(point => point is { Aid: Aid.None, SwitchBridged: false }),
                ];
                if (points.Length > 0)
                {
                    visits.Add(new(points, sound.Weighed, (readings - sound.When).TotalSeconds));
                    last ??= sound.When;
                }
            }

            // What it read before a part was changed is of another car.
            if (visits.Count == Most || Changed(job, DateTimeOffset.MaxValue))
                break;
        }

        visits.Reverse();
        return (visits.ToImmutable(), last);
    }

    /// <summary>Whether a part was replaced that decides what the gauges of a sound car show.</summary>
    private static bool Changed(JobPicture job, DateTimeOffset before) =>
        job
            .Timeline.OfKind(EntryKinds.PartChanged)
            .Any(entry => entry.ObservedAt < before && Decides(entry.Fields.Text(FieldNames.Spot)));

    private static bool Decides(string? spot) =>
        spot is not null
        && LeakComponents.FromName(spot)
            is LeakComponent.CompressorBody
                or LeakComponent.Condenser
                or LeakComponent.Evaporator
                or LeakComponent.ValveBlock;
}
