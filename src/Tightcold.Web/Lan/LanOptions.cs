using System.Collections.Immutable;
using System.Net;
using System.Net.NetworkInformation;
using System.Net.Sockets;
using System.Security.Cryptography.X509Certificates;

namespace Tightcold.Web.Lan;

/// <summary>Lets paired devices of the same network in; without it the site answers on its own machine only.</summary>
/// <param name="Addresses">Own addresses to listen at, beside loopback.</param>
public sealed record LanOptions(ImmutableArray<IPAddress> Addresses)
{
    /// <summary>With one, what travels is encrypted (TLS) at those addresses.</summary>
    public X509Certificate2? Certificate { get; init; }

    /// <summary>A name of this machine that devices may use besides its addresses, as the certificate has it.</summary>
    public string? Name { get; init; }

    /// <summary>Tests have one machine only and call some of its loopback addresses a network.</summary>
    internal Func<IPAddress, Reach> Rule { get; init; } = Reaches.Of;

    internal RateLimits Limits { get; init; } = new();

    internal OpenConnections Connections { get; init; } =
        new(OpenConnections.UsualMost, OpenConnections.UsualMostOfOne);

    /// <summary>Own addresses of private networks, IPv4 first; link-local ones left out, they change with the
    /// cable.</summary>
    public static ImmutableArray<IPAddress> OwnAddresses() =>
        [
            .. NetworkInterface
                .GetAllNetworkInterfaces()
                .Where(card => card.OperationalStatus == OperationalStatus.Up)
                .SelectMany(card => card.GetIPProperties().UnicastAddresses)
                .Select(there => there.Address)
                .Where(address =>
                    IsPrivate(address) && !address.IsIPv6LinkLocal && address.GetAddressBytes() is not [169, 254, _, _]
                )
                .Distinct()
                .OrderBy(address => address.AddressFamily == AddressFamily.InterNetwork ? 0 : 1),
        ];

    /// <summary>Whether the site may listen there: never at an address that the whole world reaches.</summary>
    public static bool IsPrivate(IPAddress address) => Reaches.Of(address) == Reach.LocalNetwork;
}
