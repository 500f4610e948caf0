using System.Globalization;
using Ical.Net.CalendarComponents;
using Ical.Net.DataTypes;
using Ical.Net.Serialization;
using Tightcold.Picture;
using Tightcold.Tongues;

namespace Tightcold.App.Books;

/// <summary>The next check of a car as a calendar entry of one day (RFC 5545), to be taken into any calendar.</summary>
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
        var calendar = new Ical.Net.Calendar { ProductId = "-//Tightcold//Next check//EN" };
        calendar.Events.Add(
            new CalendarEvent
            {
                // The same day again is the same event; another day is another.
                Uid = string.Create(CultureInfo.InvariantCulture, $"{record.Job.Id:N}-{day:yyyyMMdd}@tightcold"),
                Summary = Say.It($"Look again: {record.Car.Label}"),
                Description = Say.It(
                    $"Air conditioning, job {record.Job.Number}: read the standing pressure with the engine off and "
                        + $"cold, the air, and the vent. What was lost tells how fast it leaks."
                ),
                Start = new CalDateTime(day.Year, day.Month, day.Day),
                DtStamp = new CalDateTime(Stamp(picture).UtcDateTime, "UTC"),
            }
        );
        return new CalendarSerializer().SerializeToString(calendar)!;
    }

    /// <summary>When what it rests on was written: no clock is asked, so that the same journal gives the same
    /// file.</summary>
    private static DateTimeOffset Stamp(JobPicture picture) =>
        picture.Record.Journal.LastWritten ?? picture.Record.Job.OpenedAt;
}
