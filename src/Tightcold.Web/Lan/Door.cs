using System.Net;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.Extensions.DependencyInjection;
using Tightcold.Jobs.Journals;
using Tightcold.Pages.Asked;
using Tightcold.Pages.Files;
using Tightcold.Pages.Styles;
using Tightcold.Tongues;
using Tightcold.Web.Http;

namespace Tightcold.Web.Lan;

/// <summary>Who may come in: on this machine the owner's browsers, by their key; on the local network, when it is
/// switched on, paired devices. Everybody else sees how to get in and nothing more. A foreign Host header, as a
/// rebound name of somebody else's site would send it, is refused before anything is read.</summary>
internal static class Door
{
    public const string DevicesPath = Routes.Devices;
    public const string PairPath = Routes.Pair;
    public const string OwnerPath = "/owner";

    /// <summary>A code, a name and a token are smaller.</summary>
    private const long LargestPairingBytes = 16 << 10;

    public static bool IsPairing(PathString path) => path.Equals(PairPath, StringComparison.OrdinalIgnoreCase);

    /// <summary>Whether the request is of the owner: of the machine that runs the site, with the owner's key.</summary>
    public static bool IsOwner(HttpContext http) => http.Items[typeof(Door)] is Reach.ThisMachine;

    public static void UseDoor(this IApplicationBuilder site, LanOptions? lan) =>
        site.Use(
            async (http, next) =>
            {
                var reach = Reaches.Of(
                    http.Connection.RemoteIpAddress,
                    http.Connection.LocalIpAddress,
                    lan?.Rule ?? Reaches.Of
                );
                if (reach == Reach.ThisMachine && IsOwnName(http.Request.Host.Host) && !IsForwarded(http.Request))
                {
                    await OnThisMachineAsync(http, next).ConfigureAwait(false);
                    return;
                }
                if (lan is null || reach != Reach.LocalNetwork || !IsNetworkName(http, lan))
                {
                    await MisdirectedAsync(http).ConfigureAwait(false);
                    return;
                }
                http.Items[typeof(Door)] = reach;
                if (IsPublic(http.Request))
                {
                    if (http.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } size)
                        size.MaxRequestBodySize = LargestPairingBytes;
                    await next(http).ConfigureAwait(false);
                    return;
                }
                if (
                    Device(http) is not { } device
                    || http.Request.Path.StartsWithSegments(DevicesPath, StringComparison.OrdinalIgnoreCase)
                )
                {
                    await ForbiddenAsync(http).ConfigureAwait(false);
                    return;
                }
                http.RequestServices.GetRequiredService<DeviceBook>().Saw(device);
                http.RequestServices.GetRequiredService<OpenConnections>().Keep(http.Connection.Id);
                await next(http).ConfigureAwait(false);
            }
        );

    /// <summary>Other accounts of this machine reach this door too: without the owner's key it shows how to get one,
    /// the looks of that page, and whether the data answer.</summary>
    private static async Task OnThisMachineAsync(HttpContext http, RequestDelegate next)
    {
        if (Owner(http) is { } browser)
        {
            http.Items[typeof(Door)] = Reach.ThisMachine;
            http.RequestServices.GetRequiredService<OwnerBook>().Saw(browser);
        }
        else if (!IsOpen(http.Request))
        {
            await new RazorComponentResult<OwnerPage>(
                new Dictionary<string, object?>
                {
                    [nameof(OwnerPage.Problem)] = Say.It(
                        "This browser has no key of the owner, or it rested for too long."
                    ),
                }
            )
            {
                StatusCode = StatusCodes.Status403Forbidden,
                PreventStreamingRendering = true,
            }
                .ExecuteAsync(http)
                .ConfigureAwait(false);
            return;
        }
        await next(http).ConfigureAwait(false);
    }

    private static bool IsOpen(HttpRequest request) =>
        IsLook(request)
        || PhoneFiles.IsOne(request)
        || (HttpMethods.IsGet(request.Method) && request.Path.Value is OwnerPath or HealthEndpoints.Path);

    private static PairedDevice? Owner(HttpContext http)
    {
        try
        {
            return http
                .RequestServices.GetRequiredService<OwnerBook>()
                .FindOwner(http.Request.Cookies[DeviceCookie.OwnerName]);
        }
        catch (StoreException)
        {
            return null;
        }
    }

    private static bool IsOwnName(string host) => host is "127.0.0.1" or "localhost" or "[::1]";

    /// <summary>The address that was really reached, or the name that the owner gave.</summary>
    private static bool IsNetworkName(HttpContext http, LanOptions lan)
    {
        var host = http.Request.Host.Host;
        if (lan.Name is { } name && string.Equals(host, name, StringComparison.OrdinalIgnoreCase))
            return true;
        return http.Connection.LocalIpAddress is { } own
            && IPAddress.TryParse(host, out var said)
            && said.ToString() == host.Trim('[', ']')
            && said.Equals(own.IsIPv4MappedToIPv6 ? own.MapToIPv4() : own);
    }

    /// <summary>Behind a proxy on this machine everybody would look like the owner.</summary>
    private static bool IsForwarded(HttpRequest request) =>
        request
            .Headers.Keys.Select(name => name.Replace('_', '-'))
            .Any(name =>
                name.StartsWith("X-Forwarded", StringComparison.OrdinalIgnoreCase)
                || ForwardingHeaders.Contains(name, StringComparer.OrdinalIgnoreCase)
            );

    /// <summary>What proxies, tunnels and content networks say of whom they speak for (RFC 7239, RFC 9110 section
    /// 7.6.3, and common practice).</summary>
    private static readonly string[] ForwardingHeaders =
    [
        "Forwarded",
        "Via",
        "X-Real-IP",
        "X-Client-IP",
        "X-Cluster-Client-IP",
        "X-Original-Host",
        "X-Original-For",
        "X-Original-Forwarded-For",
        "X-Original-URL",
        "X-Rewrite-URL",
        "X-ProxyUser-IP",
        "X-Remote-IP",
        "X-Remote-Addr",
        "X-Envoy-External-Address",
        "X-Appengine-User-IP",
        "X-Azure-ClientIP",
        "X-Forwarder-For",
        "X-Forward-For",
        "Forwarded-For",
        "Remote-Addr",
        "WL-Proxy-Client-IP",
        "Proxy-Client-IP",
        "X-Host",
        "True-Client-IP",
        "Client-IP",
        "CDN-Loop",
        "CF-Connecting-IP",
        "CF-Connecting-IPv6",
        "CF-Ray",
        "Fastly-Client-IP",
        "Proxy-Connection",
    ];

    /// <summary>What somebody unpaired needs to pair: the form, its looks; and the program for the phone itself, which
    /// tells nothing of what is here.</summary>
    private static bool IsPublic(HttpRequest request) =>
        IsPairing(request.Path) || IsLook(request) || PhoneFiles.IsOne(request);

    private static bool IsLook(HttpRequest request) =>
        HttpMethods.IsGet(request.Method)
        && request.Path.Value is { } path
        && (path == Stylesheet.Look.Address || path == OwnFile.IconPath || HomeScreen.IsPart(path));

    /// <summary>The paired device whose key came along; looked up once a request.</summary>
    internal static PairedDevice? Device(HttpContext http)
    {
        if (http.Items.TryGetValue(typeof(PairedDevice), out var known))
            return known as PairedDevice;
        var found = Find(http);
        http.Items[typeof(PairedDevice)] = found;
        return found;
    }

    private static PairedDevice? Find(HttpContext http)
    {
        try
        {
            return http.RequestServices.GetRequiredService<DeviceBook>().Find(http.Request.Cookies[DeviceCookie.Name]);
        }
        catch (StoreException)
        {
            return null;
        }
    }

    private static async Task MisdirectedAsync(HttpContext http)
    {
        http.Response.StatusCode = StatusCodes.Status421MisdirectedRequest;
        http.Response.ContentType = "text/plain; charset=utf-8";
        await http
            .Response.WriteAsync(
                Say.It(
                    "This site answers on its own machine, at 127.0.0.1 or localhost, and, when its owner lets devices "
                        + "in, at its own address in the local network."
                ) + "\n",
                http.RequestAborted
            )
            .ConfigureAwait(false);
    }

    private static Task ForbiddenAsync(HttpContext http)
    {
        http.Response.StatusCode = StatusCodes.Status403Forbidden;
        return new RazorComponentResult<NotPairedPage>()
        {
            StatusCode = StatusCodes.Status403Forbidden,
            PreventStreamingRendering = true,
        }.ExecuteAsync(http);
    }
}
