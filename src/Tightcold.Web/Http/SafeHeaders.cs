using Microsoft.AspNetCore.Builder;
using Tightcold.Pages.Asked;
using Tightcold.Pages.Files;

namespace Tightcold.Web.Http;

/// <summary>What a browser may do with our pages: see <see cref="SafePolicy"/>. Nobody may frame them.</summary>
internal static class SafeHeaders
{
    public static void UseSafeHeaders(this IApplicationBuilder site) =>
        site.Use(
            (http, next) =>
            {
                var headers = http.Response.Headers;
                headers.ContentSecurityPolicy = SafePolicy.OfPages("'none'");
                headers.XContentTypeOptions = "nosniff";
                headers["Referrer-Policy"] = "same-origin";
                headers["Cross-Origin-Opener-Policy"] = "same-origin";
                headers["Cross-Origin-Resource-Policy"] = "same-origin";
                // A spoken number needs the microphone, once somebody switched that on.
                headers["Permissions-Policy"] =
                    $"camera=(), microphone=({(Choices.Voice(Visits.Kept(http, Choice.Voice)) ? "self" : "")}), geolocation=()";
                http.Response.OnStarting(() =>
                {
                    // Pages may be kept for the back button (what was typed stays typed), but are asked for again
                    // otherwise.
                    if (http.Response.ContentType?.StartsWith("text/html", StringComparison.Ordinal) == true)
                        headers.CacheControl = "private, no-cache";
                    headers.Remove("Pragma");
                    return Task.CompletedTask;
                });
                return next(http);
            }
        );
}
