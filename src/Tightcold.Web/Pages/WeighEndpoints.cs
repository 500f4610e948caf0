using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Tightcold.Web.Http;

namespace Tightcold.Web.Pages;

internal static class WeighEndpoints
{
    private const string Here = "/jobs/{number:int}/weigh-in";

    public static void MapWeighIn(this IEndpointRouteBuilder site)
    {
        site.MapGet(Here, ShowAsync);
        // Only a switch of units is sent here.
        site.MapPost(Here, (HttpContext http, WeighAnswers weigh, int number) =>
        {
            UnitChoice.IsSwitch(http);
            return ShowAsync(http, weigh, number);
        });
    }

    private static Task<IResult> ShowAsync(HttpContext http, WeighAnswers weigh, int number) =>
        Answers.OfAsync(http, ask => weigh.ShowAsync(number, ask));
}
