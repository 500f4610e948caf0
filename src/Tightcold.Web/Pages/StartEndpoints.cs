using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Tightcold.App.Desk;
using Tightcold.Jobs.Fields;
using Tightcold.Quantities;
using Tightcold.Web.Http;

namespace Tightcold.Web.Pages;

internal static class StartEndpoints
{
    public static void MapStart(this IEndpointRouteBuilder site)
    {
        site.MapGet(
            Routes.Start,
            async (HttpContext http, JobDesk desk, FindingSource findings, CancellationToken cancellation) =>
            {
                var version = await desk.VersionAsync(cancellation).ConfigureAwait(false);
                var model = await StartModel
                    .OfAsync(
                        desk,
                        job => findings.AtAGlanceAsync(desk, job, version, cancellation),
                        Visit.Of(http).Reader.Now,
                        cancellation
                    )
                    .ConfigureAwait(false);
                return Page.Show<StartPage>(http, (nameof(StartPage.Model), model));
            }
        );

        site.MapGet(Routes.Import, (HttpContext http) => Page.Show<ImportPage>(http));
        site.MapPost(Routes.Import, ImportAsync);
    }

    private static async Task<IResult> ImportAsync(HttpContext http, JobDesk desk, CancellationToken cancellation)
    {
        var form = await http.Request.ReadFormAsync(cancellation).ConfigureAwait(false);
        if (form.Files["file"] is not { Length: > 0 } file)
            return Refused(http, [new("file", "", Phrase.Words("choose the file of a job"))]);
        using var reader = new StreamReader(file.OpenReadStream());
        var outcome = await desk.ImportAsync(
                await reader.ReadToEndAsync(cancellation).ConfigureAwait(false),
                cancellation
            )
            .ConfigureAwait(false);
        return outcome.Taken ? Page.Go(Routes.Job(outcome.Value)) : Refused(http, outcome.Problems);
    }

    private static IResult Refused(HttpContext http, IReadOnlyList<InputProblem> problems) =>
        Page.Show<ImportPage>(http, StatusCodes.Status422UnprocessableEntity, (nameof(ImportPage.Problems), problems));
}
