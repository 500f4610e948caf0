using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Tightcold.Web.Pages;

namespace Tightcold.Web.Http;

/// <summary>Day, or red on black for the search with a UV lamp; kept in a cookie on the reader's own device.</summary>
internal static class Light
{
    private const string Cookie = "tightcold-light";

    public static bool IsNight(HttpRequest request) => request.Cookies[Cookie] == "night";

    public static void MapLight(this IEndpointRouteBuilder site) =>
        site.MapPost(Routes.Light, async (HttpContext http) =>
        {
            var form = await http.Request.ReadFormAsync(http.RequestAborted).ConfigureAwait(false);
            http.Response.Cookies.Append(
                Cookie,
                form["light"] == "night" ? "night" : "day",
                new CookieOptions
                {
                    HttpOnly = true,
                    Secure = http.Request.IsHttps,
                    SameSite = SameSiteMode.Strict,
                    IsEssential = true,
                    MaxAge = TimeSpan.FromDays(730),
                }
            );
            return Results.LocalRedirect(UnitChoice.LocalPath(form["back"]));
        });
}
