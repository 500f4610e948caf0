using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Tightcold.Web.Http;

namespace Tightcold.Web.Pages;

internal static class MendEndpoints
{
    private const string Here = "/jobs/{number:int}/mend";

    public static void MapMend(this IEndpointRouteBuilder site)
    {
        site.MapGet(Here, (HttpContext http, MendAnswers mend, int number) =>
            Answers.OfAsync(http, ask => mend.ShowAsync(number, ask))
        );
        site.MapPost(Here, (HttpContext http, MendAnswers mend, int number) =>
        {
            // Before the visit is read: the switch decides its units.
            UnitChoice.IsSwitch(http);
            return Answers.OfAsync(http, ask => mend.SaveAsync(number, ask));
        });
    }
}
