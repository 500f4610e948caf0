using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Tightcold.App.Desk;
using Tightcold.App.Expectation;
using Tightcold.Diagnosis.Faults;
using Tightcold.Web.Http;

namespace Tightcold.Web.Pages;

/// <summary>What the gauges should show today, before they go on.</summary>
internal static class ExpectEndpoints
{
    public static void MapExpectation(this IEndpointRouteBuilder site) =>
        site.MapGet("/jobs/{number:int}/expect", ShowAsync);

    private static async Task<IResult> ShowAsync(
        HttpContext http,
        JobDesk desk,
        int number,
        string? fault,
        string? speed,
        string? air,
        CancellationToken cancellation
    )
    {
        if (await desk.RecordAsync(number, cancellation).ConfigureAwait(false) is not { } record)
            return Results.NotFound();
        // Only what the page itself offers is asked; anything else is the usual way of looking.
        var rpm = ExpectModel.Speeds.FirstOrDefault(one => one == speed) ?? "1500 rpm";
        var cabin = ExpectModel.Airs.FirstOrDefault(one => one == air) ?? "doors open";
        var named = NamedFault.Find(fault ?? "");
        var today = ExpectationToday.Of(record, Visit.Of(http).Reader.Now, rpm, cabin);
        ExpectationSheet? sheet = null;
        if (today.Day is { } day)
        {
            var jobs = await desk.RecordsOfCarAsync(record.Car.Id, cancellation).ConfigureAwait(false);
            // This job's own readings are not earlier ones: they are what is held against the sheet.
            var earlier = EarlierReadings.Of(
                jobs.Where(job => job.Job.Number != number).Select(job => new Tightcold.Picture.JobPicture(job))
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

        return Page.Show<ExpectPage>(
            http,
            (nameof(ExpectPage.Model), new ExpectModel(record, today, sheet, named, rpm, cabin))
        );
    }
}
