using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Tightcold.App.Units;
using Tightcold.Web.Pages;

namespace Tightcold.Web.Http;

/// <summary>The reader's units, kept in a cookie on the reader's own device.</summary>
internal static class UnitChoice
{
    private const string Cookie = "tightcold-units";

    public static UnitSystem Of(HttpRequest request) => request.Cookies[Cookie] == "us" ? UnitSystem.Us : UnitSystem.Metric;

    public static void MapUnitChoice(this IEndpointRouteBuilder site) => site.MapPost(Routes.Units, async (HttpContext http) =>
    {
        var form = await http.Request.ReadFormAsync(http.RequestAborted).ConfigureAwait(false);
        http.Response.Cookies.Append(Cookie, form["system"] == "us" ? "us" : "metric", new CookieOptions
        {
            HttpOnly = true,
            Secure = http.Request.IsHttps,
            SameSite = SameSiteMode.Strict,
            IsEssential = true,
            MaxAge = TimeSpan.FromDays(730),
        });
        return Results.LocalRedirect(LocalPath(form["back"]));
    });

    /// <summary>Only a path of this site; anything else leads to the start.</summary>
    internal static string LocalPath(string? path) =>
        path is ['/', ..] && path is not ['/', '/' or '\\', ..] && !path.Any(char.IsControl) ? path : Routes.Start;
}
