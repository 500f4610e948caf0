using System.Globalization;
using Tightcold.App.Units;
using Tightcold.Quantities;
using Tightcold.Tongues;

namespace Tightcold.Pages.Words;

/// <summary>For whom a page is written: units, local time, and the moment it is made.</summary>
public sealed record Reader(ReaderUnits Units, TimeZoneInfo Zone, DateTimeOffset Now)
{
    private CultureInfo Culture => Units.Culture;

    /// <summary>A sentence, or a word of the pure rooms, as text.</summary>
    public string Says(Phrase phrase)
    {
        ArgumentNullException.ThrowIfNull(phrase);
        return phrase.Render(Units);
    }

    public DateTimeOffset Local(DateTimeOffset moment) => TimeZoneInfo.ConvertTime(moment, Zone);

    /// <summary>The clock time, with the day when it is not today, with the year when it is not this one.</summary>
    public string Time(DateTimeOffset moment)
    {
        var local = Local(moment);
        var now = Local(Now);
        return local.Date == now.Date ? local.ToString("HH:mm", Culture)
            : local.Year == now.Year ? DatePatterns.ThisYear(local, Units.Language)
            : DatePatterns.Full(local, Units.Language);
    }

    public string Day(DateTimeOffset moment) => DatePatterns.Day(Local(moment), Units.Language);

    public string Full(DateTimeOffset moment) => DatePatterns.Full(Local(moment), Units.Language);

    /// <summary>How long ago, as one says it: 25 min, 1 h 10 min, 3 days.</summary>
    public string Since(DateTimeOffset moment) =>
        Now - moment < TimeSpan.FromMinutes(1) ? Say.It("just now") : Long(Now - moment);

    /// <summary>How long from now, rounded up: nobody is called too early for a minute.</summary>
    public string Until(DateTimeOffset moment) => Long(moment - Now + TimeSpan.FromSeconds(59));

    private static string Long(TimeSpan span)
    {
        if (span < TimeSpan.FromHours(1))
            return Say.It($"{(int)span.TotalMinutes} min");
        if (span < TimeSpan.FromHours(36))
            return Say.It($"{(int)span.TotalHours} h {span.Minutes} min");
        var days = (int)Math.Round(span.TotalDays);
        return Say.Many(days, $"{days} day", $"{days} days");
    }
}
