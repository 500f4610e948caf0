using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Tightcold.App.Desk;
using Tightcold.Jobs.Journals;
using Tightcold.Web.Http;

namespace Tightcold.Web.Pages;

/// <summary>The lists of jobs and cars, a part at a time, with their search.</summary>
internal static class ListEndpoints
{
    private const int Most = 50;
    private static readonly string[] States = ["open", "waiting", "closed"];

    public static void MapLists(this IEndpointRouteBuilder site)
    {
        site.MapGet(
            Routes.Jobs,
            async (
                HttpContext http,
                JobDesk desk,
                string? state,
                string? find,
                int? before,
                CancellationToken cancellation
            ) =>
            {
                var search = new JobSearch
                {
                    State = States.Contains(state) ? state : null,
                    Words = Shortened(find),
                    Before = before,
                    Most = Most,
                };
                var page = await desk.JobsAsync(search, cancellation).ConfigureAwait(false);
                return Page.Show<JobsPage>(http, (nameof(JobsPage.Search), search), (nameof(JobsPage.Page), page));
            }
        );
        site.MapGet(
            Routes.Cars,
            async (HttpContext http, JobDesk desk, string? find, int? skip, CancellationToken cancellation) =>
            {
                var (words, from) = (Shortened(find), Math.Clamp(skip ?? 0, 0, int.MaxValue));
                var cars = await desk.CarsAsync(words, from, Most + 1, cancellation).ConfigureAwait(false);
                return Page.Show<CarsPage>(
                    http,
                    (nameof(CarsPage.Cars), cars.Take(Most).ToList()),
                    (nameof(CarsPage.Words), words),
                    (nameof(CarsPage.Skip), from),
                    (nameof(CarsPage.More), cars.Count > Most)
                );
            }
        );
    }

    private static string Shortened(string? find) =>
        find is null ? ""
        : find.Length > 200 ? find[..200]
        : find.Trim();
}
