using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Primitives;
using Tightcold.Pages.Asked;

namespace Tightcold.Web.Http;

/// <summary>Forms that could not be kept: read back from their request, and known when they are sent again.</summary>
internal static class SentForms
{
    /// <summary>The form of a request, which was read already when its token was looked at.</summary>
    public static async Task<SentForm?> OfAsync(HttpContext http)
    {
        if (!HttpMethods.IsPost(http.Request.Method) || !http.Request.HasFormContentType)
            return null;
        var form = await http.Request.ReadFormAsync(http.RequestAborted).ConfigureAwait(false);
        return SentForm.Of(
            http.Request.PathBase + http.Request.Path + http.Request.QueryString,
            [.. form.SelectMany(field => field.Value.Select(value => (field.Key, value ?? "")))],
            form.Files.Select(file => file.FileName),
            Now(http)
        );
    }

    /// <summary>A form that is sent again says when it was sent first; pages are told how long ago that is, as they are
    /// by a browser that kept one without network.</summary>
    public static void UseSentAgain(this IApplicationBuilder site) =>
        site.Use(
            async (http, next) =>
            {
                if (HttpMethods.IsPost(http.Request.Method) && http.Request.HasFormContentType)
                {
                    var form = await http.Request.ReadFormAsync(http.RequestAborted).ConfigureAwait(false);
                    if (SentForm.AgoOf(form[SentForm.First], Now(http)) is { } ago)
                    {
                        var fields = form.ToDictionary(
                            field => field.Key,
                            field => field.Value,
                            StringComparer.Ordinal
                        );
                        fields[SentForm.Ago] = new StringValues(ago);
                        http.Request.Form = new FormCollection(fields, form.Files);
                    }
                }
                await next(http).ConfigureAwait(false);
            }
        );

    private static DateTimeOffset Now(HttpContext http) =>
        http.RequestServices.GetRequiredService<TimeProvider>().GetUtcNow();
}
