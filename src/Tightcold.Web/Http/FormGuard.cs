using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;

namespace Tightcold.Web.Http;

/// <summary>Every request that could change something must carry the token of a form of ours and must not come from
/// another site: checked here, once for all, so that no page can forget it.</summary>
internal static class FormGuard
{
    public static void UseFormGuard(this IApplicationBuilder site) =>
        site.Use(
            async (http, next) =>
            {
                if (HttpMethods.IsGet(http.Request.Method) || HttpMethods.IsHead(http.Request.Method))
                {
                    await next(http).ConfigureAwait(false);
                    return;
                }
                if (IsForeign(http.Request))
                {
                    http.Response.StatusCode = StatusCodes.Status400BadRequest;
                    return;
                }
                try
                {
                    await http
                        .RequestServices.GetRequiredService<IAntiforgery>()
                        .ValidateRequestAsync(http)
                        .ConfigureAwait(false);
                }
                catch (Exception trouble) when (trouble is AntiforgeryValidationException or InvalidDataException)
                {
                    http.Response.StatusCode = StatusCodes.Status400BadRequest;
                    return;
                }
                await next(http).ConfigureAwait(false);
            }
        );

    /// <summary>What a browser says of the page that sends. Programs that are no browser say nothing; the token holds
    /// them.</summary>
    private static bool IsForeign(HttpRequest request)
    {
        var origin = request.Headers.Origin.ToString();
        if (
            origin.Length > 0
            && !string.Equals(origin, $"{request.Scheme}://{request.Host}", StringComparison.OrdinalIgnoreCase)
        )
            return true;
        return request.Headers["Sec-Fetch-Site"].ToString() is not ("" or "same-origin" or "none");
    }
}
