using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Tightcold.App.Desk;
using Tightcold.Jobs.Cars;
using Tightcold.Jobs.Fields;
using Tightcold.Quantities;
using Tightcold.Web.Http;

namespace Tightcold.Web.Pages;

/// <summary>Which spots a car's circuit has: one taken out is kept as taken out, so that it can be put back.</summary>
internal static class CircuitEndpoints
{
    /// <summary>As long as a spot's name may be in an entry.</summary>
    private const int LongestName = 60;

    public static void MapCircuit(this IEndpointRouteBuilder site)
    {
        site.MapGet(
            "/cars/{id:guid}/circuit",
            async (
                HttpContext http,
                JobDesk desk,
                Guid id,
                string? added,
                string? removed,
                CancellationToken cancellation
            ) =>
                await desk.CarAsync(id, cancellation).ConfigureAwait(false) is { } car
                    ? Show(http, car, added, removed, "", null)
                    : Results.NotFound()
        );
        site.MapPost("/cars/{id:guid}/circuit", ChangeAsync);
    }

    private static async Task<IResult> ChangeAsync(
        HttpContext http,
        JobDesk desk,
        Guid id,
        CancellationToken cancellation
    )
    {
        if (await desk.CarAsync(id, cancellation).ConfigureAwait(false) is not { } car)
            return Results.NotFound();
        var form = await http.Request.ReadFormAsync(cancellation).ConfigureAwait(false);
        string add = form["add"].ToString().Trim(),
            remove = form["remove"].ToString().Trim(),
            spot = add.Length > 0 ? add : remove;
        List<string> extra = [.. Names(car, FieldNames.ExtraSpots)],
            struck = [.. Names(car, FieldNames.StruckSpots)];
        if (spot.Length is 0 or > LongestName || spot.Contains(',', StringComparison.Ordinal))
            return Show(
                http,
                car,
                null,
                null,
                spot,
                new("add", spot, Phrase.Of($"a name of 1 to {LongestName} characters without a comma is needed"))
            );
        var there = Tightcold.Jobs.Circuit.CircuitMap.Spots(car).Contains(spot, StringComparer.OrdinalIgnoreCase);
        if (add.Length > 0 && there)
            return Show(
                http,
                car,
                null,
                null,
                spot,
                new("add", spot, Phrase.Words("this car's circuit has that spot already"))
            );
        if (add.Length > 0 && struck.RemoveAll(name => Same(name, spot)) == 0)
            extra.Add(spot);
        // One that was added is taken out as any other: checks that were written down of it keep their spot.
        if (add.Length == 0 && there)
            struck.Add(spot);
        var outcome = await desk.UpdateCarAsync(
                id,
                new Dictionary<string, string>
                {
                    [FieldNames.ExtraSpots] = string.Join(", ", extra),
                    [FieldNames.StruckSpots] = string.Join(", ", struck),
                },
                cancellation
            )
            .ConfigureAwait(false);
        return outcome.Taken
            ? Page.Go($"{Routes.Circuit(id)}?{(add.Length > 0 ? "added" : "removed")}={Uri.EscapeDataString(spot)}")
            : Show(http, car, null, null, spot, outcome.Problems[0]);
    }

    internal static IEnumerable<string> Names(Car car, string field) =>
        (car.Fields.Text(field) ?? "").Split(
            ',',
            StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries
        );

    private static bool Same(string one, string other) => string.Equals(one, other, StringComparison.OrdinalIgnoreCase);

    private static IResult Show(
        HttpContext http,
        Car car,
        string? added,
        string? removed,
        string typed,
        InputProblem? problem
    ) =>
        Page.Show<CircuitPage>(
            http,
            problem is null ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity,
            (nameof(CircuitPage.Car), car),
            (nameof(CircuitPage.Added), added),
            (nameof(CircuitPage.Removed), removed),
            (nameof(CircuitPage.Typed), typed),
            (nameof(CircuitPage.Problem), problem)
        );
}
