using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Picture;
using Tightcold.Quantities;
using static Tightcold.Picture.Pressures.Evidence;

namespace Tightcold.Findings.Now;

/// <summary>What can be done while something runs that only wants to be waited for: what this job will ask for later
/// and what is not in the way of what runs.</summary>
public static class Meanwhile
{
    /// <summary>More than that is a list, and nobody reads a list beside a running pump.</summary>
    private const int Most = 3;

    /// <summary>Weather this old should be read again before the charge is judged.</summary>
    private static readonly TimeSpan WeatherLasts = TimeSpan.FromHours(2);

    /// <summary>Best first; empty while nothing is waited for.</summary>
    public static ImmutableArray<NextAction> Of(JobPicture picture)
    {
        ArgumentNullException.ThrowIfNull(picture);
        return picture.Timeline.Now is { PumpingSince: not null } or { Holding: not null }
            ? [.. All(picture).Take(Most)]
            : [];
    }

    private static IEnumerable<NextAction> All(JobPicture picture)
    {
        var record = picture.Record;
        if (picture.WeighIn.TargetKg is null)
            yield return Plain("Read the charge on the plate under the bonnet");
        if (picture.Mend.Oil.TooLittle)
            yield return new(Phrase.Words("Write down the oil that went in"), Phrase.Empty, 1, EntryKinds.OilMoved);
        if (
            picture.Mass.Holdings.Values.FirstOrDefault(holding =>
                holding is { Weighed: false, Container.IsRecovery: false }
                && holding.Container.Refrigerant == record.Car.Refrigerant
            ) is
            { } unweighed
        )
            yield return new(
                Phrase.Of($"Put {Phrase.Verbatim(unweighed.Container.Name)} on the scale, without a hose"),
                Phrase.Empty,
                1,
                EntryKinds.ScaleReading
            );
        var latest = record.Journal.Standing.Length > 0 ? record.Journal.Standing[^1].ObservedAt : record.Job.OpenedAt;
        if (record.Journal.Last(EntryKinds.Weather) is { } weather && latest - weather.ObservedAt > WeatherLasts)
            yield return new(Phrase.Words("Read the weather again"), Phrase.Empty, 1, EntryKinds.Weather);
        yield return new(
            Phrase.Of($"Get water of {At(273.15 + 40)} ready for the cans: minutes instead of hours"),
            Phrase.Empty,
            5
        );
        yield return Plain("Put new caps and seals on the service ports at hand");
    }

    private static NextAction Plain(Phrase what) => new(what, Phrase.Empty, 1);
}
