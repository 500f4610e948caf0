using System.Globalization;
using Tightcold.Cli.Wiring;
using Tightcold.Quantities;

namespace Tightcold.Cli.Commands;

/// <summary>Times as typed: a full one, one without offset (then this machine's), only a day (then its
/// beginning), or only hours and minutes (then today).</summary>
internal static class Moments
{
    private static readonly string[] Full =
    [
        "yyyy-MM-dd'T'HH:mm:ssK",
        "yyyy-MM-dd'T'HH:mmK",
        "yyyy-MM-dd HH:mm:sszzz",
        "yyyy-MM-dd HH:mmzzz",
    ];
    private static readonly string[] Local =
    [
        "yyyy-MM-dd HH:mm:ss",
        "yyyy-MM-dd HH:mm",
        "yyyy-MM-dd'T'HH:mm:ss",
        "yyyy-MM-dd'T'HH:mm",
        "yyyy-MM-dd",
    ];

    public static DateTimeOffset? Read(string field, string? typed, TimeProvider clock)
    {
        if (typed is null)
            return null;
        var invariant = CultureInfo.InvariantCulture;
        if (DateTime.TryParseExact(typed, Local, invariant, DateTimeStyles.None, out var local))
            return Here(field, typed, local, clock);
        if (DateTimeOffset.TryParseExact(typed, Full, invariant, DateTimeStyles.None, out var full))
            return full;
        if (TimeOnly.TryParseExact(typed, ["HH:mm", "H:mm", "HH:mm:ss"], invariant, DateTimeStyles.None, out var time))
        {
            return Here(field, typed, clock.GetLocalNow().Date + time.ToTimeSpan(), clock);
        }
        throw new RefusedException(
            field,
            typed,
            "a time such as 14:30, 2031-07-04 14:30 or 2031-07-04T14:30:00+02:00 is allowed"
        );
    }

    /// <summary>In this machine's time. The hour that the clocks leap over never was, and the one that comes twice
    /// needs its offset.</summary>
    private static DateTimeOffset Here(string field, string typed, DateTime local, TimeProvider clock)
    {
        var zone = clock.LocalTimeZone;
        if (zone.IsInvalidTime(local))
            throw new RefusedException(
                field,
                typed,
                "the clocks went over that hour when summer time began; a time before or after it is allowed"
            );
        if (zone.IsAmbiguousTime(local))
        {
            var offsets = zone.GetAmbiguousTimeOffsets(local).OrderDescending().ToArray();
            var stamps = offsets.Select(offset =>
                Phrase.Verbatim(
                    new DateTimeOffset(local, offset).ToString("yyyy-MM-dd'T'HH:mm:sszzz", CultureInfo.InvariantCulture)
                )
            );
            throw new RefusedException(
                field,
                typed,
                $"that hour came twice when summer time ended; {Phrase.Join(" or ", stamps)} is allowed"
            );
        }
        return new DateTimeOffset(local, zone.GetUtcOffset(local));
    }

    /// <summary>As it may be typed again.</summary>
    public static string Show(DateTimeOffset moment) =>
        moment.ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture);
}
