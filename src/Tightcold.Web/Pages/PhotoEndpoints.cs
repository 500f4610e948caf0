using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.AspNetCore.Routing;
using Tightcold.App.Desk;
using Tightcold.Jobs.Photos;
using Tightcold.Web.Http;

namespace Tightcold.Web.Pages;

/// <summary>Photos of an entry: one is sent, all are shown. What comes in is judged by its bytes, and goes out as a
/// picture and nothing else.</summary>
internal static class PhotoEndpoints
{
    /// <summary>A job file carries its photos: more than any other request.</summary>
    private const long LargestImportBytes = 32 << 20;

    public static void UsePhotoSizes(this IApplicationBuilder site) =>
        site.Use(
            (http, next) =>
            {
                if (
                    http.Request.Path == Routes.Import
                    && HttpMethods.IsPost(http.Request.Method)
                    && http.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } size
                )
                    size.MaxRequestBodySize = LargestImportBytes;
                return next(http);
            }
        );

    public static void MapPhotos(this IEndpointRouteBuilder site)
    {
        site.MapGet(
            "/jobs/{number:int}/photos/{id:guid}",
            async (HttpContext http, JobDesk desk, int number, Guid id, CancellationToken cancellation) =>
            {
                if (
                    await desk.RecordAsync(number, cancellation).ConfigureAwait(false) is not { } record
                    || await desk.PhotoAsync(record, id, cancellation).ConfigureAwait(false) is not { } photo
                )
                    return Results.NotFound();
                // A photo never changes.
                http.Response.Headers.CacheControl = "private, max-age=31536000, immutable";
                http.Response.Headers.ContentSecurityPolicy = "default-src 'none'; frame-ancestors 'none'";
                return Results.Bytes(photo.Body.ToArray(), Photo.MediaType);
            }
        );
        site.MapPost("/jobs/{number:int}/entries/{entry:guid}/photos", KeepAsync);
    }

    private static async Task<IResult> KeepAsync(
        HttpContext http,
        JobDesk desk,
        int number,
        Guid entry,
        CancellationToken cancellation
    )
    {
        var (record, there) = await EntryEndpoints.FindAsync(desk, number, entry, cancellation).ConfigureAwait(false);
        if (record is null || there is null)
            return Results.NotFound();
        var form = await http.Request.ReadFormAsync(cancellation).ConfigureAwait(false);
        using var bytes = new MemoryStream();
        if (form.Files["photo"] is { } file)
            await file.CopyToAsync(bytes, cancellation).ConfigureAwait(false);
        Guid? own = Guid.TryParse(form["id"], out var given) ? given : null;
        var outcome = await desk.AddPhotoAsync(record, entry, bytes.ToArray(), own, cancellation).ConfigureAwait(false);
        return outcome.Taken
            ? Page.Go(Routes.Entry(record.Job, entry) + "#photos")
            : await ShowAsync(http, desk, record, there, outcome.Problems).ConfigureAwait(false);
    }

    /// <summary>The page of an entry, with its photos.</summary>
    public static async Task<IResult> ShowAsync(
        HttpContext http,
        JobDesk desk,
        Jobs.Journals.JobRecord record,
        Jobs.Entries.Entry entry,
        IReadOnlyList<Jobs.Fields.InputProblem>? problems = null
    ) =>
        Page.Show<EntryPage>(
            http,
            problems is null ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity,
            (nameof(EntryPage.Record), record),
            (nameof(EntryPage.Entry), entry),
            (
                nameof(EntryPage.Photos),
                (await desk.PhotoListAsync(record, http.RequestAborted).ConfigureAwait(false))
                    .Where(photo => photo.Entry == entry.Id)
                    .Select(photo => photo.Photo)
                    .ToArray()
            ),
            (nameof(EntryPage.PhotoProblems), problems ?? [])
        );
}
