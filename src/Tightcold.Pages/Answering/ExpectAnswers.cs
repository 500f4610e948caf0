using Tightcold.App.Desk;
using Tightcold.App.Expectation;
using Tightcold.Diagnosis.Faults;
using Tightcold.Pages.Asked;
using Tightcold.Pages.Shown;
using Tightcold.Picture;

namespace Tightcold.Pages.Answering;

/// <summary>What the gauges should show today, before they go on.</summary>
internal sealed class ExpectAnswers(JobDesk desk)
{
    public IEnumerable<PageRow> Rows => [PageRow.Shows("/jobs/{number:int}/expect", ShowAsync)];

    private async Task<Answer> ShowAsync(Ask ask)
    {
        if (await desk.RecordAsync(ask.Number, ask.Cancellation).ConfigureAwait(false) is not { } record)
            return new Answer.NotHere();
        // Only what the page itself offers is asked; anything else is the usual way of looking.
        var rpm = ExpectModel.Speeds.FirstOrDefault(one => one == ask.Word("speed")) ?? "1500 rpm";
        var cabin = ExpectModel.Airs.FirstOrDefault(one => one == ask.Word("air")) ?? "doors open";
        var named = NamedFault.Find(ask.Word("fault") ?? "");
        var today = ExpectationToday.Of(record, ask.Now, rpm, cabin);
        ExpectationSheet? sheet = null;
        if (today.Day is { } day)
        {
            var jobs = await desk.RecordsOfCarAsync(record.Car.Id, ask.Cancellation).ConfigureAwait(false);
            // This job's own readings are not earlier ones: they are what is held against the sheet.
            var earlier = EarlierReadings.Of(
                jobs.Where(job => job.Job.Number != record.Job.Number).Select(job => new JobPicture(job))
            );
            sheet = WhatToExpect.For(
                record.Car,
                day,
                named is null
                    ? []
                    :
                    [
                        [new(named, named.UsualSeverity)],
                    ],
                earlier
            );
        }

        return Answer.Show<ExpectPage>(
            (nameof(ExpectPage.Model), new ExpectModel(record, today, sheet, named, rpm, cabin))
        );
    }
}
