using System.Globalization;
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
        var now = Now(http);
        // How long ago it was is counted on from here, however long the page is looked at.
        var waited = double.TryParse(
            form[SentForm.Ago],
            NumberStyles.AllowDecimalPoint,
            CultureInfo.InvariantCulture,
            out var seconds
        )
            ? Math.Min(seconds, TimeSpan.FromDays(365).TotalSeconds)
            : 0;
        var first = Read(form[SentForm.First]) ?? now.AddSeconds(-waited);
        return new(
            http.Request.PathBase + http.Request.Path + http.Request.QueryString,
            [
                .. form.Where(field => field.Key is not ("token" or SentForm.First or SentForm.Ago))
                    .SelectMany(field => field.Value.Select(value => (field.Key, value ?? ""))),
                (SentForm.First, first.ToUnixTimeMilliseconds().ToString(CultureInfo.InvariantCulture)),
            ],
            [.. form.Files.Select(file => file.FileName).Where(name => name.Length > 0)]
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
                    if (Read(form[SentForm.First]) is { } first)
                    {
                        var fields = form.ToDictionary(
                            field => field.Key,
                            field => field.Value,
                            StringComparer.Ordinal
                        );
                        var waited = Math.Max(0, (Now(http) - first).TotalSeconds);
                        fields[SentForm.Ago] = new StringValues(
                            waited.ToString("0.###", CultureInfo.InvariantCulture)
                        );
                        http.Request.Form = new FormCollection(fields, form.Files);
                    }
                }
                await next(http).ConfigureAwait(false);
            }
        );

    private static DateTimeOffset? Read(StringValues text) =>
        long.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var milliseconds)
        && milliseconds < DateTimeOffset.MaxValue.ToUnixTimeMilliseconds()
            ? DateTimeOffset.FromUnixTimeMilliseconds(milliseconds)
            : null;

    private static DateTimeOffset Now(HttpContext http) =>
        http.RequestServices.GetRequiredService<TimeProvider>().GetUtcNow();
}
