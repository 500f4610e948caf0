using System.Text.Json;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Tightcold.Pages.Files;
using Tightcold.Pages.Scripts;
using Tightcold.Tongues;

namespace Tightcold.Web.Http;

/// <summary>What a phone needs to keep the site on its home screen: a description and icons in the sizes it asks for,
/// and the worker that keeps pages for a time without network. They tell nothing of any job, so that who is not paired
/// may see them.</summary>
internal static class HomeScreen
{
    private const string Manifest = """
        {
          "name": "Tightcold",
          "short_name": "Tightcold",
          "description": "{description}",
          "id": "/",
          "start_url": "/",
          "scope": "/",
          "display": "standalone",
          "background_color": "#ffffff",
          "theme_color": "#ffffff",
          "icons": [
            { "src": "/icon.svg", "type": "image/svg+xml", "sizes": "any" },
            { "src": "/icon-192.png", "type": "image/png", "sizes": "192x192", "purpose": "any maskable" },
            { "src": "/icon-512.png", "type": "image/png", "sizes": "512x512", "purpose": "any maskable" }
          ]
        }

        """;

    public static bool IsPart(string path) =>
        path is OwnFile.ManifestPath or OwnFile.SmallIconPath or OwnFile.LargeIconPath;

    public static void MapHomeScreen(this IEndpointRouteBuilder site)
    {
        site.MapGet(OwnFile.ManifestPath, (HttpContext http) =>
        {
            http.Response.Headers.CacheControl = "public, max-age=86400";
            var description = JsonEncodedText.Encode(Say.It("Air conditioning, proven tight and proven cold"));
            return Results.Text(
                Manifest.Replace("{description}", description.ToString(), StringComparison.Ordinal),
                "application/manifest+json"
            );
        });
        site.MapGet(OwnScript.Worker.Address, (HttpContext http) =>
        {
            http.Response.Headers.CacheControl = "no-cache";
            return Results.Text(OwnScript.Worker.Text, "text/javascript; charset=utf-8");
        });
    }
}
