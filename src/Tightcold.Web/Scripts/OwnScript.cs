using System.Security.Cryptography;
using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Tightcold.Web.Http;

namespace Tightcold.Web.Scripts;

/// <summary>A script carried inside the program, under an address that changes with its content. Only a page that asks
/// for it may run it: that page's policy names this one file.</summary>
internal sealed class OwnScript
{
    public static readonly OwnScript Weigh = new("weigh.js");
    public static readonly OwnScript Live = new("live.js");

    private static readonly OwnScript[] All = [Weigh, Live];

    private OwnScript(string name)
    {
        using var stream = typeof(OwnScript).Assembly.GetManifestResourceStream("scripts/" + name)
            ?? throw new InvalidOperationException($"the script {name} is not embedded");
        using var reader = new StreamReader(stream);
        Text = reader.ReadToEnd().ReplaceLineEndings("\n");
        Address = $"/{Path.GetFileNameWithoutExtension(name)}.{Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(Text)))[..12]}.js";
    }

    public string Text { get; }
    public string Address { get; }

    /// <summary>Lets the answer's page run this file from this site, and talk to this site, and nothing more.</summary>
    public void Allow(HttpContext http) => http.Response.Headers.ContentSecurityPolicy =
        $"{SafeHeaders.Policy}; script-src {http.Request.Scheme}://{http.Request.Host}{Address}; connect-src 'self'";

    public static void Map(IEndpointRouteBuilder site)
    {
        foreach (var script in All)
            site.MapGet(script.Address, (HttpContext http) =>
            {
                http.Response.Headers.CacheControl = "public, max-age=31536000, immutable";
                return Results.Text(script.Text, "text/javascript; charset=utf-8");
            });
    }
}
