using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;

namespace Tightcold.Web.Http;

/// <summary>Every request that could change something must carry the token of a form of ours: checked here, once
/// for all, so that no page can forget it.</summary>
internal static class FormGuard
{
    public static void UseFormGuard(this IApplicationBuilder site) => site.Use(async (http, next) =>
    {
        if (HttpMethods.IsGet(http.Request.Method) || HttpMethods.IsHead(http.Request.Method))
        {
            await next(http).ConfigureAwait(false);
            return;
        }
        try
        {
            await http.RequestServices.GetRequiredService<IAntiforgery>().ValidateRequestAsync(http).ConfigureAwait(false);
        }
        catch (Exception trouble) when (trouble is AntiforgeryValidationException or InvalidDataException)
        {
            http.Response.StatusCode = StatusCodes.Status400BadRequest;
            return;
        }
        await next(http).ConfigureAwait(false);
    });
}
