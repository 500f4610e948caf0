using System.Net;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Tightcold.Pages.Answering;
using Tightcold.Pages.Asked;

namespace Tightcold.Web.Lan;

/// <summary>The addresses at which devices of the network reach the running site.</summary>
internal sealed class LanLinks(IServer server, LanOptions? lan)
{
    private Func<IPAddress, Reach> Rule => lan?.Rule ?? Reaches.Of;

    private IEnumerable<Uri> Bound =>
        server.Features.Get<IServerAddressesFeature>()?.Addresses.Select(address => new Uri(address)) ?? [];

    /// <summary>Where the owner's own browser goes.</summary>
    public Uri Own => Bound.First(address => Reach(address) == Lan.Reach.ThisMachine);

    public IReadOnlyList<Uri> Network =>
        [.. Bound.Where(address => Reach(address) != Lan.Reach.ThisMachine).Select(Named)];

    /// <summary>Where the code on a car's label leads.</summary>
    public LabelReach Label => Network.Count > 0 ? new(Network[0], false) : new(Own, true);

    /// <summary>The link that a QR code carries; the code in it serves once and for minutes.</summary>
    public string? Pairing(string code) =>
        Network.Count == 0 ? null : new Uri(Network[0], $"{Door.PairPath}?code={code}").ToString();

    /// <summary>Where a phone gets the program that runs in itself; null where no phone reaches this site.</summary>
    public string? Phone => Network.Count == 0 ? null : new Uri(Network[0], Routes.Phone).ToString();

    private Reach Reach(Uri address) => IPAddress.TryParse(address.Host, out var ip) ? Rule(ip) : Lan.Reach.ThisMachine;

    private Uri Named(Uri address) => lan?.Name is { } name ? new UriBuilder(address) { Host = name }.Uri : address;
}
