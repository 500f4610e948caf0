using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using Tightcold.App.Units;
using Tightcold.Web.Lan;
using Tightcold.Web.Pages;

namespace Tightcold.Web.Http;

/// <summary>The reader's units, kept in a cookie on the reader's own device.</summary>
internal static class UnitChoice
{
    private const string Cookie = "tightcold-units";

    /// <summary>The device's own choice; without one that of this machine, which the command line keeps too.</summary>
    public static UnitSystem Of(HttpRequest request) =>
        request.Cookies[Cookie] switch
        {
            "us" => UnitSystem.Us,
            "metric" => UnitSystem.Metric,
            _ => RememberedUnits.Read(Folder(request.HttpContext)),
        };

    private static string Folder(HttpContext http) => http.RequestServices.GetRequiredService<SiteOptions>().DataFolder;

    public static void MapUnitChoice(this IEndpointRouteBuilder site) =>
        site.MapPost(Routes.Units, async (HttpContext http) =>
        {
            var form = await http.Request.ReadFormAsync(http.RequestAborted).ConfigureAwait(false);
            http.Response.Cookies.Append(
                Cookie,
                form["system"] == "us" ? "us" : "metric",
                new CookieOptions
                {
                    HttpOnly = true,
                    Secure = http.Request.IsHttps,
                    SameSite = SameSiteMode.Strict,
                    IsEssential = true,
                    MaxAge = TimeSpan.FromDays(730),
                }
            );
            if (Door.IsOwner(http))
                Remember(Folder(http), form["system"] == "us" ? UnitSystem.Us : UnitSystem.Metric);
            return Results.LocalRedirect(LocalPath(form["back"]));
        });

    /// <summary>A full disk is no reason to refuse a switch that the cookie holds already.</summary>
    private static void Remember(string folder, UnitSystem system)
    {
        try
        {
            RememberedUnits.Write(folder, system);
        }
        catch (Exception trouble) when (trouble is IOException or UnauthorizedAccessException)
        {
            // The next start asks the file again and finds the old choice.
        }
    }

    /// <summary>Only a path of this site; anything else leads to the start.</summary>
    internal static string LocalPath(string? path) =>
        path is ['/', ..] && path is not ['/', '/' or '\\', ..] && !path.Any(char.IsControl) ? path : Routes.Start;
}
