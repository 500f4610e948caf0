using System.Text.Json.Nodes;
using Tightcold.App.Desk;
using Tightcold.Findings.Now;
using Tightcold.Jobs.Journals;
using Tightcold.Pages.Asked;
using Tightcold.Pages.Shown;
using Tightcold.Picture.Circuit;
using Tightcold.Quantities;

namespace Tightcold.Pages.Answering;

/// <summary>What is running: of one job as a page, of all open jobs for the script that sounds on every page.</summary>
internal sealed class TimerAnswers(JobDesk desk, FindingSource findings)
{
    public IEnumerable<PageRow> Rows =>
        [
            PageRow.Shows(Routes.AllTimers, OfAllAsync),
            PageRow.Shows("/jobs/{number:int}/timers", ask => OfJobAsync(ask.Number, ask)),
        ];

    /// <summary>So many open jobs are looked at; one person has fewer running.</summary>
    private const int Most = 20;

    public async Task<Answer> OfJobAsync(int number, Ask ask) =>
        await desk.RecordAsync(number, ask.Cancellation).ConfigureAwait(false) is { } record
            ? Answer.Show<TimersPage>((nameof(TimersPage.Record), record))
            : new Answer.NotHere();

    public async Task<Answer> OfAllAsync(Ask ask)
    {
        var open = new JobSearch { State = "open", Most = Most };
        var reader = ask.Visit.Reader;
        var timers = new JsonArray();
        foreach (var job in (await desk.JobsAsync(open, ask.Cancellation).ConfigureAwait(false)).Jobs)
        {
            if (await desk.RecordAsync(job.Number, ask.Cancellation).ConfigureAwait(false) is not { } record)
                continue;
            var picture = (await findings.AtAGlanceAsync(desk, record, ask.Cancellation).ConfigureAwait(false)).Picture;
            foreach (var timer in WorkTimers.Of(picture))
                timers.Add(
                    (JsonNode)
                        new JsonObject
                        {
                            ["due"] = timer.Due.ToUnixTimeMilliseconds(),
                            ["what"] = $"{job.CarLabel}: {reader.Says(Phrase.Within(TimerWords.What(timer)))}",
                            ["then"] = reader.Says(TimerWords.Then(timer)),
                            ["go"] = Routes.Job(record.Job),
                        }
                );
        }
        return new Answer.Tells(
            new JsonObject { ["now"] = reader.Now.ToUnixTimeMilliseconds(), ["timers"] = timers }
        );
    }
}
