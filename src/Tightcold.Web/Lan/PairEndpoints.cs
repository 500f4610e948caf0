using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.Logging;
using Tightcold.Jobs.Journals;
using Tightcold.Pages.Asked;
using Tightcold.Tongues;
using Tightcold.Web.Http;

namespace Tightcold.Web.Lan;

/// <summary>Pairing, as a new device sees it, and the owner's list of devices.</summary>
internal static class PairEndpoints
{
    public static void MapPairing(this IEndpointRouteBuilder site, LanOptions? lan)
    {
        site.MapGet(
            Door.DevicesPath,
            (HttpContext http, DeviceBook book, OwnerBook own, LanLinks links, PairingCodes codes) =>
                Devices(http, book, own, links, codes, lan)
        );
        site.MapPost(Door.DevicesPath + "/{id:guid}/revoke", (DeviceBook book, OwnerBook own, Guid id) =>
            book.Revoke(id) || own.Revoke(id) ? Results.LocalRedirect(Door.DevicesPath) : Results.NotFound()
        );
        if (lan is null)
            return;
        site.MapPost(Door.DevicesPath + "/code", (PairingCodes codes) =>
        {
            codes.Renew();
            return Results.LocalRedirect(Door.DevicesPath);
        });
        site.MapGet(Door.PairPath, (HttpContext http, string? code) =>
            Ask(http, code ?? "", GuessName(http.Request), null)
        );
        site.MapPost(Door.PairPath, PairAsync);
    }

    private static IResult Devices(
        HttpContext http,
        DeviceBook book,
        OwnerBook own,
        LanLinks links,
        PairingCodes codes,
        LanOptions? lan
    )
    {
        var current = lan is null ? null : codes.Current;
        IReadOnlyList<PairedDevice> devices = [],
            browsers = [];
        string? problem = null;
        try
        {
            browsers = own.List();
            devices = book.List();
        }
        catch (StoreException trouble)
        {
            problem = trouble.Message;
        }
        return Answers.Show<DevicesPage>(
            http,
            (nameof(DevicesPage.IsOn), lan is not null),
            (nameof(DevicesPage.IsEncrypted), lan?.Certificate is not null),
            (nameof(DevicesPage.Code), current),
            (nameof(DevicesPage.Link), current is null ? null : links.Pairing(current.Code)),
            (nameof(DevicesPage.PhoneLink), links.Phone),
            (nameof(DevicesPage.Devices), devices),
            (nameof(DevicesPage.Browsers), browsers),
            (nameof(DevicesPage.Problem), problem)
        );
    }

    private static async Task<IResult> PairAsync(
        HttpContext http,
        DeviceBook book,
        PairingCodes codes,
        ILogger<DeviceBook> log,
        CancellationToken cancellation
    )
    {
        var form = await http.Request.ReadFormAsync(cancellation).ConfigureAwait(false);
        string code = form["code"].ToString(),
            name = form["name"].ToString();
        if (!PairingCodes.HasShape(code))
            return Ask(http, code, name, Say.It("The code has eight digits, such as 0123 4567."));
        if (!codes.Redeem(code))
        {
            DoorLog.PairingFailed(log, http.Connection.RemoteIpAddress);
            return Ask(
                http,
                "",
                name,
                Say.It(
                    "This code does not serve, or no longer: each lets one device in, within ten minutes. Ask for "
                        + "another one on the owner’s screen."
                )
            );
        }
        try
        {
            var (device, key) = book.Add(name.Length > 0 ? name : GuessName(http.Request));
            DeviceCookie.Give(http, DeviceCookie.Name, key);
            DoorLog.Paired(log, device.Name, device.Id, http.Connection.RemoteIpAddress);
            return Results.LocalRedirect(Routes.Start);
        }
        catch (StoreException trouble)
        {
            return Ask(http, "", name, trouble.Message);
        }
    }

    private static RazorComponentResult<PairPage> Ask(HttpContext http, string code, string name, string? problem)
    {
        // The page may hold a code: kept nowhere.
        http.Response.Headers.CacheControl = "no-store";
        return new(
            new Dictionary<string, object?>
            {
                [nameof(PairPage.Code)] = code.Length > 12 ? "" : code,
                [nameof(PairPage.Name)] = name,
                [nameof(PairPage.Problem)] = problem,
            }
        )
        {
            StatusCode = problem is null ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity,
            PreventStreamingRendering = true,
        };
    }

    private static string GuessName(HttpRequest request) =>
        Say.It(request.Headers.UserAgent.ToString().Contains("Mobi", StringComparison.Ordinal) ? "Phone" : "Computer");
}
