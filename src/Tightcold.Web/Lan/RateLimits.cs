using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Threading.RateLimiting;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using Tightcold.Tongues;
using Tightcold.Web.Http;

namespace Tightcold.Web.Lan;

/// <summary>How often a visitor of the network may ask. A page with its style and script is three requests, a live page
/// asks every few seconds: a person is far below, a program that guesses is not. The owner's own machine has no
/// limit.</summary>
internal sealed record RateLimits
{
    /// <summary>Requests of one address at once, and how many more each second.</summary>
    public int Burst { get; init; } = 200;
    public int EachSecond { get; init; } = 40;

    /// <summary>Codes that one address may try in a minute, and all together.</summary>
    public int Pairings { get; init; } = 6;
    public int PairingsOfAll { get; init; } = 30;

    public static void Add(IServiceCollection services, LanOptions lan) =>
        services.AddRateLimiter(limiter =>
        {
            var limits = lan.Limits;
            limiter.RejectionStatusCode = StatusCodes.Status429TooManyRequests;
            limiter.OnRejected = async (rejected, cancellation) =>
            {
                var wait = rejected.Lease.TryGetMetadata(MetadataName.RetryAfter, out var after)
                    ? (int)Math.Ceiling(after.TotalSeconds)
                    : 1;
                rejected.HttpContext.Response.Headers.RetryAfter = Math.Max(1, wait)
                    .ToString(CultureInfo.InvariantCulture);
                rejected.HttpContext.Response.ContentType = "text/plain; charset=utf-8";
                // Turned away before anything else was asked of the request.
                Say.Tongue = Visits.Spoken(rejected.HttpContext);
                await rejected
                    .HttpContext.Response.WriteAsync(
                        Say.It("Too many requests; wait a little. Nothing was changed.") + "\n",
                        cancellation
                    )
                    .ConfigureAwait(false);
            };
            limiter.GlobalLimiter = PartitionedRateLimiter.CreateChained(
                PartitionedRateLimiter.Create<HttpContext, string>(http =>
                    Partition(http, lan) is not { } who
                        ? RateLimitPartition.GetNoLimiter("")
                        : RateLimitPartition.GetTokenBucketLimiter(who, _ => new()
                            {
                                TokenLimit = limits.Burst,
                                TokensPerPeriod = limits.EachSecond,
                                ReplenishmentPeriod = TimeSpan.FromSeconds(1),
                            })
                ),
                Window(limits.Pairings, http => Partition(http, lan)),
                Window(limits.PairingsOfAll, http => Partition(http, lan) is null ? null : "all")
            );
        });

    private static PartitionedRateLimiter<HttpContext> Window(int permits, Func<HttpContext, string?> who) =>
        PartitionedRateLimiter.Create<HttpContext, string>(http =>
            HttpMethods.IsPost(http.Request.Method) && Door.IsPairing(http.Request.Path) && who(http) is { } name
                ? RateLimitPartition.GetFixedWindowLimiter(name, _ =>
                    new() { PermitLimit = permits, Window = TimeSpan.FromMinutes(1) }
                )
                : RateLimitPartition.GetNoLimiter("")
        );

    /// <summary>A paired device by its key, wherever it comes from: neighbours in its network count for themselves.
    /// Else an address; of IPv6 its network, since one machine may take any address in it. Null for the
    /// owner.</summary>
    private static string? Partition(HttpContext http, LanOptions lan)
    {
        if (Reaches.Of(http.Connection.RemoteIpAddress, http.Connection.LocalIpAddress, lan.Rule) == Reach.ThisMachine)
            return null;
        if (Door.Device(http) is { } device)
            return device.Id.ToString();
        return Neighbourhood(http);
    }

    private static string Neighbourhood(HttpContext http)
    {
        var from = http.Connection.RemoteIpAddress ?? IPAddress.None;
        return from.AddressFamily == AddressFamily.InterNetworkV6 && !from.IsIPv4MappedToIPv6
            ? Convert.ToHexString(from.GetAddressBytes(), 0, 8)
            : from.ToString();
    }
}
