using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Tightcold.Web.Styles;

namespace Tightcold.Web.Http;

/// <summary>The style sheet and the icon; both travel inside the program.</summary>
internal static class StyleEndpoints
{
    /// <summary>A drop on a line, as the walk draws its steps: ours, in the service yellow.</summary>
    private const string Icon = """
        <svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 32 32"><rect width="32" height="32" rx="6" fill="#14181c"/><path d="M16 5c5 6.5 8 10 8 14a8 8 0 0 1-16 0c0-4 3-7.5 8-14z" fill="#ffd21f"/></svg>
        """;

    public const string IconPath = "/icon.svg";

    public static void MapStyles(this IEndpointRouteBuilder site)
    {
        site.MapGet(Stylesheet.Look.Address, (HttpContext http) =>
        {
            http.Response.Headers.CacheControl = "public, max-age=31536000, immutable";
            return Results.Text(Stylesheet.Look.Text, "text/css; charset=utf-8");
        });
        site.MapGet(IconPath, (HttpContext http) =>
        {
            http.Response.Headers.CacheControl = "public, max-age=86400";
            return Results.Text(Icon, "image/svg+xml");
        });
    }
}
