using System.Globalization;
using System.Text;
using Tightcold.Picture;
using Tightcold.Tongues;

namespace Tightcold.App.Books;

/// <summary>The next check of a car as a calendar entry of one day (RFC 5545), to be taken into any calendar. The few
/// lines of it are written here: a library for calendars brings clocks, time zones and XML, a tenth of what a phone
/// loads. One reads what is written, in the tests.</summary>
public static class CheckCalendar
{
    public static string FileName(JobPicture picture)
    {
        ArgumentNullException.ThrowIfNull(picture);
        return string.Create(CultureInfo.InvariantCulture, $"next-check-job-{picture.Record.Job.Number}.ics");
    }

    public static string Of(JobPicture picture)
    {
        ArgumentNullException.ThrowIfNull(picture);
        var (record, day) = (picture.Record, picture.NextCheckAt);
        var look = Say.It($"Look again: {record.Car.Label}");
        var how = Say.It(
            $"Air conditioning, job {record.Job.Number}: read the standing pressure with the engine off and "
                + $"cold, the air, and the vent. What was lost tells how fast it leaks."
        );
        // The same day again is the same event; another day is another.
        var id = string.Create(CultureInfo.InvariantCulture, $"{record.Job.Id:N}-{day:yyyyMMdd}@tightcold");
        string[] lines =
        [
            "BEGIN:VCALENDAR",
            "PRODID:-//Tightcold//Next check//EN",
            "VERSION:2.0",
            "BEGIN:VEVENT",
            "DESCRIPTION:" + Escaped(how),
            string.Create(CultureInfo.InvariantCulture, $"DTSTAMP:{Stamp(picture).UtcDateTime:yyyyMMdd'T'HHmmss'Z'}"),
            string.Create(CultureInfo.InvariantCulture, $"DTSTART;VALUE=DATE:{day:yyyyMMdd}"),
            "SEQUENCE:0",
            "SUMMARY:" + Escaped(look),
            "UID:" + id,
            "END:VEVENT",
            "END:VCALENDAR",
        ];
        return string.Concat(lines.Select(Folded));
    }

    /// <summary>RFC 5545 §3.3.11.</summary>
    private static string Escaped(string text) =>
        text.Replace("\\", "\\\\", StringComparison.Ordinal)
            .Replace(";", "\\;", StringComparison.Ordinal)
            .Replace(",", "\\,", StringComparison.Ordinal)
            .ReplaceLineEndings("\\n");

    /// <summary>RFC 5545 §3.1: no line longer than 75 octets, no letter cut in two.</summary>
    private static string Folded(string line)
    {
        var (folded, octets) = (new StringBuilder(), 0);
        foreach (var letter in line.EnumerateRunes())
        {
            octets += letter.Utf8SequenceLength;
            if (octets > 75)
            {
                folded.Append("\r\n ");
                octets = 1 + letter.Utf8SequenceLength;
            }
            folded.Append(letter.ToString());
        }
        return folded.Append("\r\n").ToString();
    }

    /// <summary>When what it rests on was written: no clock is asked, so that the same journal gives the same
    /// file.</summary>
    private static DateTimeOffset Stamp(JobPicture picture) =>
        picture.Record.Journal.LastWritten ?? picture.Record.Job.OpenedAt;
}
