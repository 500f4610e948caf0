using System.Net;
using System.Net.Sockets;

namespace Tightcold.Web.Lan;

/// <summary>How far away the other end of a connection is.</summary>
internal enum Reach
{
    /// <summary>The machine that runs the site: its owner.</summary>
    ThisMachine,

    /// <summary>An address of a private network: who is paired may come in.</summary>
    LocalNetwork,

    /// <summary>Anywhere else, as through a port forwarded by a router: nobody.</summary>
    Elsewhere,
}

internal static class Reaches
{
    /// <summary>Private addresses: RFC 1918 and link-local (RFC 3927) of IPv4, unique local (RFC 4193) and link-local
    /// of IPv6.</summary>
    public static Reach Of(IPAddress address)
    {
        var plain = address.IsIPv4MappedToIPv6 ? address.MapToIPv4() : address;
        if (IPAddress.IsLoopback(plain))
            return Reach.ThisMachine;
        if (plain.AddressFamily != AddressFamily.InterNetwork)
            return plain.IsIPv6UniqueLocal || plain.IsIPv6LinkLocal ? Reach.LocalNetwork : Reach.Elsewhere;
        return plain.GetAddressBytes() is [10, ..] or [172, >= 16 and <= 31, ..] or [192, 168, ..] or [169, 254, ..]
            ? Reach.LocalNetwork
            : Reach.Elsewhere;
    }

    /// <summary>Of a connection by both its ends. What comes in at an address of the network is a visitor, even when it
    /// was sent from this machine; only loopback on both ends is the owner.</summary>
    public static Reach Of(IPAddress? from, IPAddress? to, Func<IPAddress, Reach> rule)
    {
        if (from is null || to is null)
            return Reach.Elsewhere;
        var (there, here) = (rule(from), rule(to));
        if (there == Reach.Elsewhere || here == Reach.Elsewhere)
            return Reach.Elsewhere;
        return there == Reach.ThisMachine && here == Reach.ThisMachine ? Reach.ThisMachine : Reach.LocalNetwork;
    }
}
