using System.Globalization;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Tightcold.App.Desk;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Picture.Leaks;
using Tightcold.Web.Http;

namespace Tightcold.Web.Pages;

/// <summary>The ways forward with what each may cost, at the person's own prices, which are kept with the
/// kit.</summary>
internal static class DecideEndpoints
{
    /// <summary>Kilograms in what a price may be said for.</summary>
    private static readonly Dictionary<string, double> PerKg = new(StringComparer.Ordinal)
    {
        ["kg"] = 1,
        ["lb"] = 0.45359237,
        ["can of 12 oz"] = 12 * 0.45359237 / 16,
    };

    public static IEnumerable<string> Sizes => PerKg.Keys;

    public static void MapDecide(this IEndpointRouteBuilder site)
    {
        site.MapGet(
            "/jobs/{number:int}/ways",
            async (
                HttpContext http,
                JobDesk desk,
                FindingSource findings,
                int number,
                CancellationToken cancellation
            ) =>
                await desk.RecordAsync(number, cancellation).ConfigureAwait(false) is { } record
                    ? await ShowAsync(http, desk, findings, record, new Dictionary<string, string>(), [], cancellation)
                        .ConfigureAwait(false)
                    : Results.NotFound()
        );
        site.MapPost("/jobs/{number:int}/ways", SaveAsync);
    }

    private static async Task<IResult> SaveAsync(
        HttpContext http,
        JobDesk desk,
        FindingSource findings,
        int number,
        CancellationToken cancellation
    )
    {
        if (await desk.RecordAsync(number, cancellation).ConfigureAwait(false) is not { } record)
            return Results.NotFound();
        var form = await http.Request.ReadFormAsync(cancellation).ConfigureAwait(false);
        var typed = DecidePage.Fields.ToDictionary(field => field.Name, field => form[field.Name].ToString().Trim());
        var kept = new Dictionary<string, string>(typed, StringComparer.Ordinal);
        // The desk keeps a price per kilogram, whatever it was said for.
        if (
            double.TryParse(
                typed[FieldNames.PriceRefrigerant].Replace(',', '.'),
                NumberStyles.AllowDecimalPoint,
                CultureInfo.InvariantCulture,
                out var price
            ) && PerKg.TryGetValue(form["size"].ToString(), out var size)
        )
            kept[FieldNames.PriceRefrigerant] = (price / size).ToString("0.####", CultureInfo.InvariantCulture);
        var outcome = await desk.UpdateKitAsync(kept, cancellation: cancellation).ConfigureAwait(false);
        return outcome.Taken
            ? Page.Go(Routes.Decide(record.Job))
            : await ShowAsync(http, desk, findings, record, typed, outcome.Problems, cancellation)
                .ConfigureAwait(false);
    }

    private static async Task<IResult> ShowAsync(
        HttpContext http,
        JobDesk desk,
        FindingSource findings,
        JobRecord record,
        IReadOnlyDictionary<string, string> typed,
        IReadOnlyList<InputProblem> problems,
        CancellationToken cancellation
    )
    {
        var sight = await findings.OfAsync(desk, record, cancellation).ConfigureAwait(false);
        var kit = await desk.KitAsync(cancellation).ConfigureAwait(false);
        return Page.Show<DecidePage>(
            http,
            problems.Count > 0 ? StatusCodes.Status422UnprocessableEntity : StatusCodes.Status200OK,
            (nameof(DecidePage.Record), record),
            (nameof(DecidePage.Ways), WaysForward.Of(sight.Picture.Leaks, kit)),
            (nameof(DecidePage.Kit), kit),
            (nameof(DecidePage.Typed), typed),
            (nameof(DecidePage.Problems), problems)
        );
    }
}
