using System.Globalization;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Primitives;
using Tightcold.Pages.Answering;
using Tightcold.Pages.Asked;
using Tightcold.Pages.Files;

namespace Tightcold.Web.Http;

/// <summary>Between the server and the pages, which know none: a request becomes an <see cref="Ask"/>, an
/// <see cref="Answer"/> becomes a response.</summary>
internal static class Answers
{
    public static void MapPages(this IEndpointRouteBuilder site)
    {
        foreach (var row in site.ServiceProvider.GetRequiredService<PageTable>().Rows)
            site.MapMethods(
                row.Pattern,
                [row.IsSent ? HttpMethods.Post : HttpMethods.Get],
                async http =>
                    await (await OfAsync(http, row.Handler).ConfigureAwait(false)).ExecuteAsync(http).ConfigureAwait(false)
            );
        foreach (var file in OwnFile.All)
        {
            var bytes = file.Body.ToArray();
            site.MapGet(file.Address, (HttpContext http) =>
            {
                http.Response.Headers.CacheControl = file.Lasts
                    ? "public, max-age=31536000, immutable"
                    : "public, max-age=86400";
                return Results.Bytes(bytes, file.MediaType);
            });
        }
    }

    /// <summary>A page that only this host has.</summary>
    public static IResult Show<TPage>(HttpContext http, params ReadOnlySpan<(string Name, object? Value)> parameters)
        where TPage : Microsoft.AspNetCore.Components.IComponent =>
        Shown(http, Visits.Of(http), (Answer.Shows)Answer.Show<TPage>(parameters));

    private static async Task<IResult> OfAsync(HttpContext http, Func<Ask, Task<Answer>> handler)
    {
        var form = http.Request.HasFormContentType
            ? await http.Request.ReadFormAsync(http.RequestAborted).ConfigureAwait(false)
            : null;
        // A switch of units within a form decides the units of the page that comes.
        if (form?["units"].ToString() is { Length: > 0 } units)
            Visits.Remember(http, Choice.Units, Choices.Units(units, Visits.Of(http).Reader.Now));
        var ask = new Ask(Visits.Of(http), Flat(http.Request.Query), form is null ? [] : Flat(form), http.RequestAborted)
        {
            Places = http.Request.RouteValues.ToDictionary(
                place => place.Key,
                place => Convert.ToString(place.Value, CultureInfo.InvariantCulture) ?? "",
                StringComparer.Ordinal
            ),
            Files = await FilesAsync(form, http.RequestAborted).ConfigureAwait(false),
        };
        switch (await handler(ask).ConfigureAwait(false))
        {
            case Answer.Shows page:
                return Shown(http, ask.Visit, page);
            case Answer.Card card:
                http.Response.Headers.ContentSecurityPolicy = SafePolicy.OfTheCard("'none'");
                return card.FileName is { } name
                    ? Results.File(System.Text.Encoding.UTF8.GetBytes(card.Html), "text/html; charset=utf-8", name)
                    : Results.Content(card.Html, "text/html; charset=utf-8");
            case Answer.Hands file:
                return Results.File(file.Body, file.MediaType, file.FileName);
            case Answer.Pours poured:
                return Results.Stream(
                    async body =>
                    {
                        await foreach (var part in poured.Parts.WithCancellation(http.RequestAborted).ConfigureAwait(false))
                            await body.WriteAsync(System.Text.Encoding.UTF8.GetBytes(part), http.RequestAborted)
                                .ConfigureAwait(false);
                    },
                    poured.MediaType,
                    poured.FileName
                );
            case Answer.Picture picture:
                http.Response.Headers.CacheControl = "private, max-age=31536000, immutable";
                http.Response.Headers.ContentSecurityPolicy = "default-src 'none'; frame-ancestors 'none'";
                return Results.Bytes(picture.Body, picture.MediaType);
            case Answer.Goes goes:
                // After something was written: go and look at it, so that a reload sends nothing twice.
                return Results.LocalRedirect(goes.Address);
            case Answer.Remembers choice:
                Visits.Remember(http, choice.What, choice.Value);
                return Results.LocalRedirect(choice.Address);
            case Answer.Tells tells:
                return Told(http, tells);
            default:
                return Results.NotFound();
        }
    }

    private static IResult Told(HttpContext http, Answer.Tells tells)
    {
        http.Response.Headers.CacheControl = "private, no-cache";
        if (tells.Version is null)
            return Results.Json(tells.Value);
        var version = $"\"{tells.Version}\"";
        http.Response.Headers.ETag = version;
        // Nothing new is an answer without a body.
        return http.Request.Headers.IfNoneMatch == version
            ? Results.StatusCode(StatusCodes.Status304NotModified)
            : Results.Json(tells.Value);
    }

    private static RazorComponentResult Shown(HttpContext http, Visit visit, Answer.Shows page)
    {
        var all = new Dictionary<string, object?> { ["Visit"] = visit };
        foreach (var (name, value) in page.Parameters)
            all[name] = value;
        if (page.AgainSeconds is { } seconds)
            http.Response.Headers["Refresh"] = seconds.ToString(CultureInfo.InvariantCulture);
        return new(page.Page, all)
        {
            StatusCode = page.Refused ? StatusCodes.Status422UnprocessableEntity : StatusCodes.Status200OK,
            PreventStreamingRendering = true,
        };
    }

    private static async Task<Dictionary<string, byte[]>> FilesAsync(
        IFormCollection? form,
        CancellationToken cancellation
    )
    {
        var files = new Dictionary<string, byte[]>(StringComparer.Ordinal);
        foreach (var file in form?.Files ?? (IEnumerable<IFormFile>)[])
        {
            if (file.Length == 0 || files.ContainsKey(file.Name))
                continue;
            using var bytes = new MemoryStream();
            await file.CopyToAsync(bytes, cancellation).ConfigureAwait(false);
            files[file.Name] = bytes.ToArray();
        }
        return files;
    }

    private static Dictionary<string, string> Flat(IEnumerable<KeyValuePair<string, StringValues>> pairs) =>
        pairs.ToDictionary(pair => pair.Key, pair => pair.Value.ToString(), StringComparer.Ordinal);
}
