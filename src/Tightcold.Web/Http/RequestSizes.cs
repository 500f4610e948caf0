using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;
using Tightcold.Pages.Asked;

namespace Tightcold.Web.Http;

/// <summary>A job file carries its photos, a tally may be of thousands of jobs: they may be larger than any other
/// request.</summary>
internal static class RequestSizes
{
    private const long LargestImportBytes = 32 << 20;

    public static void UseRequestSizes(this IApplicationBuilder site) =>
        site.Use(
            (http, next) =>
            {
                if (
                    http.Request.Path.Value is Routes.Import or Routes.Lacking
                    && HttpMethods.IsPost(http.Request.Method)
                    && http.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } size
                )
                    size.MaxRequestBodySize = LargestImportBytes;
                return next(http);
            }
        );
}
