using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Tightcold.Web.Pages;

namespace Tightcold.Web.Http;

/// <summary>The three lights of the site.</summary>
public enum Light
{
    /// <summary>Black on white, for the sun.</summary>
    Day,

    /// <summary>Pale on dark, for a garage in the evening.</summary>
    Dark,

    /// <summary>Red on black, for the search with a UV lamp.</summary>
    Night,
}

/// <summary>The person's choice of light; kept in a cookie on the reader's own device.</summary>
internal static class LightChoice
{
    private const string Cookie = "tightcold-light";

    public static Light Of(HttpRequest request) => Named(request.Cookies[Cookie]);

    public static string Name(Light light) =>
        light switch
        {
            Light.Dark => "dark",
            Light.Night => "night",
            _ => "day",
        };

    private static Light Named(string? name) =>
        name switch
        {
            "dark" => Light.Dark,
            "night" => Light.Night,
            _ => Light.Day,
        };

    public static void MapLight(this IEndpointRouteBuilder site) =>
        site.MapPost(Routes.Light, async (HttpContext http) =>
        {
            var form = await http.Request.ReadFormAsync(http.RequestAborted).ConfigureAwait(false);
            http.Response.Cookies.Append(
                Cookie,
                Name(Named(form["light"])),
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
