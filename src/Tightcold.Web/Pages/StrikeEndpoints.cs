using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Tightcold.App.Desk;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Web.Http;

namespace Tightcold.Web.Pages;

/// <summary>Striking an entry without replacing it.</summary>
internal static class StrikeEndpoints
{
    public static void MapStrikes(this IEndpointRouteBuilder entries)
    {
        entries.MapGet(
            "/{id:guid}/strike",
            async (
                HttpContext http,
                JobDesk desk,
                IIdSource ids,
                int number,
                Guid id,
                CancellationToken cancellation
            ) =>
                await EntryEndpoints.FindAsync(desk, number, id, cancellation).ConfigureAwait(false)
                    is ({ } record, { } entry)
                    ? Form(http, StatusCodes.Status200OK, record, entry, ids.NextId(Visit.Of(http).Reader.Now))
                    : Results.NotFound()
        );
        entries.MapPost("/{id:guid}/strike", StrikeAsync);
    }

    private static async Task<IResult> StrikeAsync(
        HttpContext http,
        JobDesk desk,
        IIdSource ids,
        int number,
        Guid id,
        CancellationToken cancellation
    )
    {
        if (
            await EntryEndpoints.FindAsync(desk, number, id, cancellation).ConfigureAwait(false)
            is not
            ({ } record, { } entry)
        )
            return Results.NotFound();
        var form = await http.Request.ReadFormAsync(cancellation).ConfigureAwait(false);
        var reason = form["reason"].ToString();
        var own = Guid.TryParse(form["id"], out var given) ? given : ids.NextId(Visit.Of(http).Reader.Now);
        if (record.Journal.IsStruck(id) || record.Journal.Find(own) is not null)
            return Page.Go(Routes.Entry(record.Job, id));
        var outcome = await desk.AddEntryAsync(
                number,
                EntryKinds.Struck,
                new Dictionary<string, string>(),
                null,
                EntryEndpoints.Who(record, null),
                id,
                reason,
                own,
                cancellation
            )
            .ConfigureAwait(false);
        return outcome.Taken
            ? Page.Go(Routes.Job(record.Job))
            : Form(http, StatusCodes.Status422UnprocessableEntity, record, entry, own, reason, outcome.Problems);
    }

    private static IResult Form(
        HttpContext http,
        int status,
        JobRecord record,
        Entry entry,
        Guid id,
        string reason = "",
        IReadOnlyList<Jobs.Fields.InputProblem>? problems = null
    ) =>
        Page.Show<StrikePage>(
            http,
            status,
            (nameof(StrikePage.Record), record),
            (nameof(StrikePage.Entry), entry),
            (nameof(StrikePage.Id), id),
            (nameof(StrikePage.Reason), reason),
            (nameof(StrikePage.Problems), problems ?? [])
        );
}
