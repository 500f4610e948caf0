using System.Globalization;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Tightcold.App.Desk;
using Tightcold.Findings.Now;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Picture;
using Tightcold.Web.Http;

namespace Tightcold.Web.Pages;

/// <summary>The live weigh-in: scale readings in, grams to go and the next stop out.</summary>
internal static class WeighEndpoints
{
    public static void MapWeighIn(this IEndpointRouteBuilder site)
    {
        site.MapGet(
            "/jobs/{number:int}/weigh-in",
            async (HttpContext http, JobDesk desk, IIdSource ids, int number, CancellationToken cancellation) =>
                await desk.RecordAsync(number, cancellation).ConfigureAwait(false) is { } record
                    ? await ShowAsync(http, desk, ids, record, "", "", "", [], cancellation).ConfigureAwait(false)
                    : Results.NotFound()
        );
        site.MapPost("/jobs/{number:int}/weigh-in", WriteAsync);
    }

    private static async Task<IResult> WriteAsync(
        HttpContext http,
        JobDesk desk,
        IIdSource ids,
        int number,
        CancellationToken cancellation
    )
    {
        if (await desk.RecordAsync(number, cancellation).ConfigureAwait(false) is not { } record)
            return Results.NotFound();
        var form = await http.Request.ReadFormAsync(cancellation).ConfigureAwait(false);
        var now = Visit.Of(http).Reader.Now;
        string gross = form["gross"].ToString(),
            unit = form["unit"].ToString(),
            container = form["container"].ToString();
        var fields = new Dictionary<string, string>(StringComparer.Ordinal)
        {
            ["container"] = container,
            ["gross"] = $"{gross} {unit}".Trim(),
        };
        var machine = http.Request.Headers.Accept.ToString().Contains("application/json", StringComparison.Ordinal);
        var id = Guid.TryParse(form["id"], out var given) ? given : ids.NextId(now);
        if (record.Journal.Find(id) is { } there)
        {
            // The same reading sent twice: it is written already and is not counted again.
            if (
                there.Kind == EntryKinds.ScaleReading
                && FieldReader
                    .Read(EntryKinds.Get(EntryKinds.ScaleReading), fields, CultureInfo.InvariantCulture)
                    .Bag.Equals(there.Fields)
            )
                return machine ? Results.Json(new { written = there.Id }) : Page.Go(Routes.WeighIn(record.Job));
            id = ids.NextId(now);
        }
        var (observed, trouble) = Waited.Since(form["ago"], now);
        // Onto nitrogen or air it is asked back once; the page that asks carries the answer.
        if (
            trouble is null
            && form["really"] != "yes"
            && AskBack.Of(
                new JobPicture(record),
                EntryKinds.ScaleReading,
                FieldReader.Read(EntryKinds.Get(EntryKinds.ScaleReading), fields, CultureInfo.InvariantCulture).Bag
            )
                is { } asked
        )
            return await RefusedAsync(
                    http,
                    desk,
                    ids,
                    record,
                    machine,
                    container,
                    gross,
                    unit,
                    [new("gross", $"{gross} {unit}".Trim(), asked)],
                    cancellation
                )
                .ConfigureAwait(false);
        if (trouble is not null)
            return await RefusedAsync(http, desk, ids, record, machine, container, gross, unit, [trouble], cancellation)
                .ConfigureAwait(false);
        var outcome = await desk.AddEntryAsync(
                number,
                EntryKinds.ScaleReading,
                fields,
                observed,
                EntryEndpoints.Who(record, null),
                id: id,
                cancellation: cancellation
            )
            .ConfigureAwait(false);
        return !outcome.Taken
                ? await RefusedAsync(
                        http,
                        desk,
                        ids,
                        record,
                        machine,
                        container,
                        gross,
                        unit,
                        outcome.Problems,
                        cancellation
                    )
                    .ConfigureAwait(false)
            : machine ? Results.Json(new { written = outcome.Value.Id })
            : Page.Go(Routes.WeighIn(record.Job));
    }

    private static async Task<IResult> RefusedAsync(
        HttpContext http,
        JobDesk desk,
        IIdSource ids,
        JobRecord record,
        bool machine,
        string container,
        string gross,
        string unit,
        IReadOnlyCollection<InputProblem> problems,
        CancellationToken cancellation
    ) =>
        machine
            ? Results.Json(
                new
                {
                    refused = problems
                        .Select(problem => problem.Sentence.Render(Visit.Of(http).Reader.Units))
                        .ToArray(),
                },
                statusCode: StatusCodes.Status422UnprocessableEntity
            )
            : await ShowAsync(http, desk, ids, record, container, gross, unit, [.. problems], cancellation)
                .ConfigureAwait(false);

    private static async Task<IResult> ShowAsync(
        HttpContext http,
        JobDesk desk,
        IIdSource ids,
        JobRecord record,
        string container,
        string gross,
        string unit,
        InputProblem[] problems,
        CancellationToken cancellation
    )
    {
        var picture = await desk.PictureAsync(record, cancellation).ConfigureAwait(false);
        var model = new WeighModel(
            picture,
            ids.NextId(Visit.Of(http).Reader.Now),
            container.Length > 0 ? container : picture.WeighIn.Container,
            gross,
            unit,
            problems
        );
        return Page.Show<WeighPage>(
            http,
            problems.Length > 0 ? StatusCodes.Status422UnprocessableEntity : StatusCodes.Status200OK,
            (nameof(WeighPage.Model), model)
        );
    }
}
