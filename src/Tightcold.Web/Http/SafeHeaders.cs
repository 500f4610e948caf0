using Microsoft.AspNetCore.Builder;
using Tightcold.Web.Styles;

namespace Tightcold.Web.Http;

/// <summary>What a browser may do with our pages: show them with our own style sheet, send forms back to us, and
/// nothing else. No script runs but files of this site, none stands inside a page, nothing is fetched from elsewhere,
/// nobody may frame them.</summary>
internal static class SafeHeaders
{
    private const string Rest =
        "img-src 'self'; manifest-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

    public const string Policy =
        "default-src 'none'; style-src 'self'; script-src 'self'; connect-src 'self'; worker-src 'self'; " + Rest;

    /// <summary>The job card carries its styles and photos inside, so that a saved file still prints; the styles are
    /// named by hash. The one script hands the card to the phone's own sharing.</summary>
    public static string CardPolicy { get; } =
        $"default-src 'none'; style-src 'sha256-{Stylesheet.Card.Hash}'; script-src 'self'; connect-src 'self'; "
        + $"img-src data:; form-action 'none'; base-uri 'none'; frame-ancestors 'none'";

    public static void UseSafeHeaders(this IApplicationBuilder site) =>
        site.Use(
            (http, next) =>
            {
                var headers = http.Response.Headers;
                headers.ContentSecurityPolicy = Policy;
                headers.XContentTypeOptions = "nosniff";
                headers["Referrer-Policy"] = "same-origin";
                headers["Cross-Origin-Opener-Policy"] = "same-origin";
                headers["Cross-Origin-Resource-Policy"] = "same-origin";
                // A spoken number needs the microphone, once somebody switched that on.
                headers["Permissions-Policy"] =
                    $"camera=(), microphone=({(VoiceChoice.IsOn(http.Request) ? "self" : "")}), geolocation=()";
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
