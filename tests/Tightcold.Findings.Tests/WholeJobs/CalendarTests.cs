using System.Text;
using Ical.Net.CalendarComponents;
using Tightcold.App.Books;

namespace Tightcold.Findings.Tests.WholeJobs;

/// <summary>The calendar file is written by our own few lines; a calendar library reads it as it was meant.</summary>
public sealed class CalendarTests
{
    private static JobPicture Waiting(string label) =>
        AJob.OnACar(("label", label), ("label-charge", "550 g"))
            .At(60, "job-state", ("state", "waiting"), ("look-again-in", "7"))
            .Picture();

    [Theory]
    [InlineData("blue estate")]
    [InlineData("estate, blue; the one with a \\ and a \"tow bar\": red")]
    [InlineData("Übergröße żółta 🚐🚐🚐🚐🚐🚐🚐🚐🚐🚐, noch ein Wort 🚐🚐🚐")]
    public void A_calendar_reads_the_day_the_words_and_the_moment_that_were_meant(string label)
    {
        var picture = Waiting(label);
        var written = CheckCalendar.Of(picture);
        var calendar = Assert.IsType<Ical.Net.Calendar>(Ical.Net.Calendar.Load(written));
        Assert.Equal("-//Tightcold//Next check//EN", calendar.ProductId);
        var look = Assert.Single<CalendarEvent>(calendar.Events);
        Assert.Equal("Look again: " + label, look.Summary);
        Assert.StartsWith("Air conditioning, job 1: read the standing pressure with", look.Description);
        Assert.EndsWith("What was lost tells how fast it leaks.", look.Description);
        Assert.True(look.IsAllDay);
        Assert.Equal(new DateOnly(2026, 7, 8), look.Start!.Date);
        Assert.Equal($"{picture.Record.Job.Id:N}-20260708@tightcold", look.Uid);
        Assert.Equal(new DateTime(2026, 7, 1, 9, 0, 0, DateTimeKind.Utc), look.DtStamp!.AsUtc);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(17)]
    public void Its_lines_are_as_short_as_the_standard_asks_and_no_letter_is_cut_in_two(int times)
    {
        for (var before = 0; before < 8; before++)
        {
            var label = new string('x', before) + string.Concat(Enumerable.Repeat("ł🚐", times));
            var written = CheckCalendar.Of(Waiting(label));
            Assert.EndsWith("\r\nEND:VCALENDAR\r\n", written);
            foreach (var line in written.Split("\r\n"))
            {
                Assert.InRange(Encoding.UTF8.GetByteCount(line), 0, 75);
                Assert.DoesNotContain('\uFFFD', Encoding.UTF8.GetString(Encoding.UTF8.GetBytes(line)));
            }
            Assert.Contains("SUMMARY:Look again: " + label, written.Replace("\r\n ", "", StringComparison.Ordinal));
        }
    }
}
