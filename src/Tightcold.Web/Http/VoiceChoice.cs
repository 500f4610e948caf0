using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Tightcold.Web.Pages;

namespace Tightcold.Web.Http;

/// <summary>Whether numbers may be spoken on this device: off until somebody switches it on, on the kit page, where it
/// stands where the sound goes. Kept in a cookie.</summary>
internal static class VoiceChoice
{
    private const string Cookie = "tightcold-voice";

    public static bool IsOn(HttpRequest request) => request.Cookies[Cookie] == "on";

    public static void MapVoice(this IEndpointRouteBuilder site) =>
        site.MapPost(Routes.Voice, async (HttpContext http) =>
        {
            var form = await http.Request.ReadFormAsync(http.RequestAborted).ConfigureAwait(false);
            http.Response.Cookies.Append(
                Cookie,
                form["voice"] == "on" ? "on" : "off",
                new CookieOptions
                {
                    HttpOnly = true,
                    Secure = http.Request.IsHttps,
                    SameSite = SameSiteMode.Strict,
                    IsEssential = true,
                    MaxAge = TimeSpan.FromDays(730),
                }
            );
            return Results.LocalRedirect(Routes.Kit + "#voice");
        });
}
