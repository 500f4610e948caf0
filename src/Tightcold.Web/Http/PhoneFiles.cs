using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.StaticFiles;
using Microsoft.Extensions.FileProviders;
using Tightcold.Pages.Asked;
using Tightcold.Pages.Files;

namespace Tightcold.Web.Http;

/// <summary>Hands out the program that runs in the phone itself (<c>./package phone</c>), to any browser that reaches the
/// site: it tells nothing of any job. What is written down there stays there; it comes here by the exchange, from paired
/// devices only.</summary>
internal static class PhoneFiles
{
    private static readonly string Folder = Routes.Phone.TrimEnd('/');

    /// <summary>Whether a folder holds a whole program.</summary>
    public static bool AreIn(string? folder) => folder is not null && File.Exists(Path.Combine(folder, "files.js"));

    public static bool IsOne(HttpRequest request) =>
        (HttpMethods.IsGet(request.Method) || HttpMethods.IsHead(request.Method))
        && request.Path.StartsWithSegments(Folder, StringComparison.Ordinal);

    public static void UsePhoneFiles(this IApplicationBuilder site, string? folder)
    {
        if (folder is null)
            return;
        var files = new PhysicalFileProvider(Path.GetFullPath(folder));
        site.UseDefaultFiles(new DefaultFilesOptions { FileProvider = files, RequestPath = Folder });
        site.UseStaticFiles(
            new StaticFileOptions
            {
                FileProvider = files,
                RequestPath = Folder,
                ContentTypeProvider = new FileExtensionContentTypeProvider(),
                OnPrepareResponse = about =>
                {
                    var headers = about.Context.Response.Headers;
                    headers.ContentSecurityPolicy = SafePolicy.OfThePhone;
                    // A number is spoken there too, once somebody switched that on.
                    headers["Permissions-Policy"] = "camera=(), microphone=(self), geolocation=()";
                    // Which files belong together its own worker knows.
                    headers.CacheControl = "no-cache";
                },
            }
        );
    }
}
