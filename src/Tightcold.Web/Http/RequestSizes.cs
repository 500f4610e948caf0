using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;
using Tightcold.Pages.Asked;

namespace Tightcold.Web.Http;

/// <summary>A job file carries its photos: it may be larger than any other request.</summary>
internal static class RequestSizes
{
    private const long LargestImportBytes = 32 << 20;

    public static void UseRequestSizes(this IApplicationBuilder site) =>
        site.Use(
            (http, next) =>
            {
                if (
                    http.Request.Path == Routes.Import
                    && HttpMethods.IsPost(http.Request.Method)
                    && http.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } size
                )
                    size.MaxRequestBodySize = LargestImportBytes;
                return next(http);
            }
        );
}
