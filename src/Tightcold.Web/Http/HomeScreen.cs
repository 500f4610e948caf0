using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace Tightcold.Web.Http;

/// <summary>What a phone needs to keep the site on its home screen: a description and icons in the sizes it asks for.
/// They tell nothing of any job, so that who is not paired may see them.</summary>
internal static class HomeScreen
{
    public const string ManifestPath = "/site.webmanifest";
    public const string SmallIconPath = "/icon-192.png";
    private const string LargeIconPath = "/icon-512.png";

    private const string Manifest = """
        {
          "name": "Tightcold",
          "short_name": "Tightcold",
          "description": "Air conditioning, proven tight and proven cold",
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

    public static bool IsPart(string path) => path is ManifestPath or SmallIconPath or LargeIconPath;

    public static void MapHomeScreen(this IEndpointRouteBuilder site)
    {
        site.MapGet(ManifestPath, (HttpContext http) =>
        {
            http.Response.Headers.CacheControl = "public, max-age=86400";
            return Results.Text(Manifest, "application/manifest+json");
        });
        foreach (var path in (string[])[SmallIconPath, LargeIconPath])
        {
            var icon = Load(path[1..]);
            site.MapGet(path, (HttpContext http) =>
            {
                http.Response.Headers.CacheControl = "public, max-age=86400";
                return Results.Bytes(icon, "image/png");
            });
        }
    }

    private static byte[] Load(string name)
    {
        using var stream = typeof(HomeScreen).Assembly.GetManifestResourceStream("icons/" + name)
            ?? throw new InvalidOperationException($"the icon {name} is not embedded");
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return bytes;
    }
}
