using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Tightcold.App.Desk;
using Tightcold.Web.Http;
using Tightcold.Web.Lan;

namespace Tightcold.Web.Pages;

/// <summary>A label for a car, whose code opens its history.</summary>
internal static class LabelEndpoints
{
    public static void MapLabel(this IEndpointRouteBuilder site) =>
        site.MapGet(
            "/cars/{id:guid}/label",
            async (HttpContext http, JobDesk desk, LanLinks links, Guid id, CancellationToken cancellation) =>
            {
                if (await desk.CarAsync(id, cancellation).ConfigureAwait(false) is not { } car)
                    return Results.NotFound();
                var inNetwork = links.Network.Count > 0;
                return Page.Show<LabelPage>(
                    http,
                    (nameof(LabelPage.Car), car),
                    (
                        nameof(LabelPage.Link),
                        new Uri(inNetwork ? links.Network[0] : links.Own, Routes.Car(id)).ToString()
                    ),
                    (nameof(LabelPage.OnThisMachineOnly), !inNetwork)
                );
            }
        );
}
