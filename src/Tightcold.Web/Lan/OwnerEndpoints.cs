using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.Logging;
using Tightcold.Jobs.Journals;
using Tightcold.Pages.Asked;
using Tightcold.Tongues;

namespace Tightcold.Web.Lan;

/// <summary>The link of the terminal, opened in a browser of the same machine.</summary>
internal static class OwnerEndpoints
{
    public static void MapOwner(this IEndpointRouteBuilder site) =>
        site.MapGet(Door.OwnerPath, (HttpContext http, string? key, OwnerBook book, ILogger<OwnerBook> log) =>
        {
            // The link holds a key: kept nowhere.
            http.Response.Headers.CacheControl = "no-store";
            string? problem = null;
            try
            {
                if (book.Redeem(key))
                {
                    var (browser, own) = book.Add("Browser on this machine");
                    DeviceCookie.Give(http, DeviceCookie.OwnerName, own);
                    DoorLog.OwnerCame(log, browser.Id);
                    // A browser that was led here by another site's page would not show its new key at once.
                    return http.Request.Headers["Sec-Fetch-Site"].ToString() is "cross-site" or "same-site"
                        ? Show(null, StatusCodes.Status200OK)
                        : Results.LocalRedirect(Routes.Start);
                }
                if (!Door.IsOwner(http))
                    DoorLog.OwnerLinkFailed(log);
            }
            catch (StoreException trouble)
            {
                problem = trouble.Message;
            }
            // A second press of the link, in the browser that has its key already.
            return Door.IsOwner(http)
                ? Results.LocalRedirect(Routes.Start)
                : Show(
                    problem
                        ?? Say.It("This link does not serve, or no longer: each lets one browser in, within an hour."),
                    StatusCodes.Status403Forbidden
                );
        });

    private static RazorComponentResult<OwnerPage> Show(string? problem, int status) =>
        new(new Dictionary<string, object?> { [nameof(OwnerPage.Problem)] = problem })
        {
            StatusCode = status,
            PreventStreamingRendering = true,
        };
}
