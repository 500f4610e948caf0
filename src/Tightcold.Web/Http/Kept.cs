using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;

namespace Tightcold.Web.Http;

/// <summary>A form that our own script sends asks, by a header, to be told where to go next instead of being taken
/// there: a browser hides a redirect from scripts, and following it would load the page twice.</summary>
internal static class Kept
{
    public const string Asks = "X-Tightcold-Kept",
        Goes = "X-Tightcold-Go";

    public static void UseKept(this IApplicationBuilder site) =>
        site.Use(
            (http, next) =>
            {
                if (HttpMethods.IsPost(http.Request.Method) && http.Request.Headers.ContainsKey(Asks))
                {
                    http.Response.OnStarting(() =>
                    {
                        if (http.Response.StatusCode != StatusCodes.Status302Found)
                            return Task.CompletedTask;
                        http.Response.Headers[Goes] = http.Response.Headers.Location;
                        http.Response.Headers.Remove("Location");
                        http.Response.StatusCode = StatusCodes.Status204NoContent;
                        return Task.CompletedTask;
                    });
                }
                return next(http);
            }
        );
}
