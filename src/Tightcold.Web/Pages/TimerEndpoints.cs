using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Tightcold.Web.Http;

namespace Tightcold.Web.Pages;

internal static class TimerEndpoints
{
    public static void MapTimers(this IEndpointRouteBuilder site)
    {
        site.MapGet(Routes.AllTimers, (HttpContext http, TimerAnswers timers) =>
        {
            http.Response.Headers.CacheControl = "private, no-cache";
            return Answers.OfAsync(http, timers.OfAllAsync);
        });
        site.MapGet("/jobs/{number:int}/timers", (HttpContext http, TimerAnswers timers, int number) =>
            Answers.OfAsync(http, ask => timers.OfJobAsync(number, ask))
        );
    }
}
