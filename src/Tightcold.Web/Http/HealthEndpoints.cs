using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Tightcold.App.Desk;
using Tightcold.Jobs.Journals;

namespace Tightcold.Web.Http;

/// <summary>For a program that watches: whether the site runs and its data answer. One question that reads no
/// job.</summary>
internal static class HealthEndpoints
{
    public const string Path = "/health";

    public static void MapHealth(this IEndpointRouteBuilder site) =>
        site.MapGet(Path, async (JobDesk desk, CancellationToken cancellation) =>
        {
            try
            {
                await desk.VersionAsync(cancellation).ConfigureAwait(false);
                return Results.Text("well\n");
            }
            catch (StoreException trouble)
            {
                return Results.Text(
                    trouble.Trouble switch
                    {
                        StoreTrouble.Busy => "the data are busy\n",
                        StoreTrouble.Full => "the disk is full\n",
                        StoreTrouble.Stopped => "the database does not answer\n",
                        _ => "the data cannot be read\n",
                    },
                    statusCode: StatusCodes.Status503ServiceUnavailable
                );
            }
        });
}
