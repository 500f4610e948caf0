using System.Globalization;
using Tightcold.Cli.Wiring;

namespace Tightcold.Cli.Commands;

/// <summary>Times as typed: a full one, one without offset (then this machine's), or only hours and minutes (then
/// today).</summary>
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
    ];

    public static DateTimeOffset? Read(string field, string? typed, TimeProvider clock)
    {
        if (typed is null)
            return null;
        var invariant = CultureInfo.InvariantCulture;
        if (DateTime.TryParseExact(typed, Local, invariant, DateTimeStyles.None, out var local))
            return new DateTimeOffset(local, clock.LocalTimeZone.GetUtcOffset(local));
        if (DateTimeOffset.TryParseExact(typed, Full, invariant, DateTimeStyles.None, out var full))
            return full;
        if (TimeOnly.TryParseExact(typed, ["HH:mm", "H:mm", "HH:mm:ss"], invariant, DateTimeStyles.None, out var time))
        {
            var day = clock.GetLocalNow().Date + time.ToTimeSpan();
            return new DateTimeOffset(day, clock.LocalTimeZone.GetUtcOffset(day));
        }
        throw new RefusedException(
            field,
            typed,
            "a time such as 14:30, 2031-07-04 14:30 or 2031-07-04T14:30:00+02:00 is allowed"
        );
    }

    public static string Show(DateTimeOffset moment) =>
        moment.ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture);
}
