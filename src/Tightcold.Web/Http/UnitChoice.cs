using System.Globalization;
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
    private const string Cookie = "tightcold-units",
        Us = "us",
        Metric = "metric";

    /// <summary>A switch while this request was answered.</summary>
    private static readonly object Switched = new();

    /// <summary>The device's own choice; without one that of this machine, which the command line keeps too.</summary>
    public static UnitSystem Of(HttpRequest request) =>
        Kept(request).System ?? RememberedUnits.Read(Folder(request.HttpContext));

    /// <summary>When the device last switched; what was typed before is shown in the units of now. Null where it never
    /// did.</summary>
    public static DateTimeOffset? Since(HttpRequest request) => Kept(request).Since;

    private static (UnitSystem? System, DateTimeOffset? Since) Kept(HttpRequest request)
    {
        var text = request.HttpContext.Items.TryGetValue(Switched, out var now)
            ? (string)now!
            : request.Cookies[Cookie];
        var parts = (text ?? "").Split('.');
        UnitSystem? system = parts[0] switch
        {
            Us => UnitSystem.Us,
            Metric => UnitSystem.Metric,
            _ => null,
        };
        return (
            system,
            parts.Length == 2
            && long.TryParse(parts[1], NumberStyles.None, CultureInfo.InvariantCulture, out var seconds)
            && seconds < DateTimeOffset.MaxValue.ToUnixTimeSeconds()
                ? DateTimeOffset.FromUnixTimeSeconds(seconds)
                : null
        );
    }

    /// <summary>The switch in the head of a page with a form sends that form along, so that nothing typed is lost, and
    /// its own name with it. True when it was one. The address will not do: it stays when the form is sent after
    /// it.</summary>
    public static bool IsSwitch(HttpContext http)
    {
        if (!http.Request.HasFormContentType || http.Request.Form["units"].ToString() is not { Length: > 0 } asked)
            return false;
        Choose(http, asked);
        return true;
    }

    private static void Choose(HttpContext http, string? asked)
    {
        var clock = http.RequestServices.GetRequiredService<TimeProvider>();
        var system = asked == Us ? Us : Metric;
        var kept = string.Create(CultureInfo.InvariantCulture, $"{system}.{clock.GetUtcNow().ToUnixTimeSeconds()}");
        http.Items[Switched] = kept;
        http.Response.Cookies.Append(
            Cookie,
            kept,
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
            Remember(Folder(http), system == Us ? UnitSystem.Us : UnitSystem.Metric);
    }

    private static string Folder(HttpContext http) => http.RequestServices.GetRequiredService<SiteOptions>().DataFolder;

    public static void MapUnitChoice(this IEndpointRouteBuilder site) =>
        site.MapPost(Routes.Units, async (HttpContext http) =>
        {
            var form = await http.Request.ReadFormAsync(http.RequestAborted).ConfigureAwait(false);
            Choose(http, form["system"]);
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
