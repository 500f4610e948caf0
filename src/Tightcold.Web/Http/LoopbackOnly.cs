using System.Net;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;

namespace Tightcold.Web.Http;

/// <summary>Serves this machine only. The listener is bound to loopback; a foreign Host header, as a rebound name
/// of somebody else's site would send it, is refused before anything is read.</summary>
internal static class LoopbackOnly
{
    public static void UseLoopbackOnly(this IApplicationBuilder site) => site.Use(async (http, next) =>
    {
        var from = http.Connection.RemoteIpAddress;
        if (IsOurs(http.Request.Host.Host) && (from is null || IPAddress.IsLoopback(from)))
        {
            await next(http).ConfigureAwait(false);
            return;
        }
        http.Response.StatusCode = StatusCodes.Status421MisdirectedRequest;
        http.Response.ContentType = "text/plain; charset=utf-8";
        await http.Response.WriteAsync("This site answers on its own machine only, at 127.0.0.1 or localhost.\n", http.RequestAborted).ConfigureAwait(false);
    });

    private static bool IsOurs(string host) => host is "127.0.0.1" or "localhost" or "[::1]";
}
