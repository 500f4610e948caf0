using System.Net;
using System.Net.Sockets;
using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Time.Testing;
using Tightcold.App.Desk;
using Tightcold.Storage;
using Tightcold.Web.Lan;

namespace Tightcold.Web.Tests.Bench;

/// <summary>The real site with the network switched on. The machine that runs the tests has no network that it may
/// count on, so loopback stands for one by another rule: 127.0.0.1 is the owner, the site listens at 127.0.0.3 too,
/// other addresses 127.0.0.x are visitors, 127.9.x.x is the world outside. The rule for real addresses has tests of its
/// own.</summary>
public sealed class LanSite : IAsyncDisposable
{
    public static readonly IPAddress OfSite = IPAddress.Parse("127.0.0.3");
    public const string Outside = "127.9.0.1";

    private readonly WebApplication site;
    private readonly LanOptions lan;
    private readonly string ownerKey;

    private LanSite(LanOptions lan)
    {
        this.lan = lan;
        DataFolder = Directory.CreateTempSubdirectory("tightcold-lan-").FullName;
        Clock = new FakeTimeProvider(RunningSite.Noon.ToUniversalTime());
        site = Site.Build(
            new SiteOptions(DataFolder, 0, Clock)
            {
                Lan = lan,
                Log = Failures.Add,
                LogFolder = LogFolder,
            }
        );
        ownerKey = RunningSite.KeyOf(site);
    }

    public string DataFolder { get; }
    public string LogFolder => Path.Combine(DataFolder, "log");
    public FakeTimeProvider Clock { get; }
    public List<string> Failures { get; } = [];
    public Uri Own => Site.Address(site);
    public Uri Network => Assert.Single(Site.NetworkAddresses(site));
    public JobDesk Desk => site.Services.GetRequiredService<JobDesk>();
    public DeviceBook Book => site.Services.GetRequiredService<DeviceBook>();

    public static async Task<LanSite> StartAsync(Func<LanOptions, LanOptions>? change = null)
    {
        var lan = new LanOptions([OfSite]) { Rule = Rule };
        var running = new LanSite(change is null ? lan : change(lan));
        await running.site.StartAsync(TestContext.Current.CancellationToken);
        return running;
    }

    private static Reach Rule(IPAddress address) =>
        address.GetAddressBytes() switch
        {
            [127, 0, 0, 1] => Reach.ThisMachine,
            [127, 0, 0, _] => Reach.LocalNetwork,
            _ => Reach.Elsewhere,
        };

    /// <summary>The code as the owner's terminal shows it.</summary>
    public string NewCode() => Site.NewPairing(site).Code;

    /// <summary>A browser without a screen, at the owner's machine.</summary>
    public HttpClient Owner(bool withKey = true)
    {
        var cookies = new CookieContainer();
        if (withKey)
            cookies.Add(Own, OwnerCookie);
        return Client(Own, "127.0.0.1", cookies);
    }

    /// <summary>What the owner's browser shows.</summary>
    public Cookie OwnerCookie => RunningSite.OwnerCookie(ownerKey);

    /// <summary>The link as the owner's terminal shows it.</summary>
    public Uri NewOwnerLink() => Site.NewOwnerLink(site).Link;

    /// <summary>A browser without a screen, elsewhere in the network.</summary>
    public HttpClient Visitor(string from = "127.0.0.20", CookieContainer? cookies = null) =>
        Client(Network, from, cookies ?? new());

    /// <summary>Pairs a device and returns its browser.</summary>
    public async Task<HttpClient> PairedAsync(string name = "Ada's phone", string from = "127.0.0.20")
    {
        var client = Visitor(from);
        using var answer = await client.PairAsync(NewCode(), name);
        Assert.Equal(HttpStatusCode.Found, answer.StatusCode);
        return client;
    }

    private HttpClient Client(Uri at, string from, CookieContainer cookies) =>
        new(
            new SocketsHttpHandler
            {
                AllowAutoRedirect = false,
                UseProxy = false,
                CookieContainer = cookies,
                SslOptions =
                {
                    RemoteCertificateValidationCallback = (_, shown, _, _) =>
                        shown is not null && shown.GetCertHashString() == lan.Certificate?.GetCertHashString(),
                },
                ConnectCallback = async (context, cancellation) =>
                {
                    var socket = new Socket(AddressFamily.InterNetwork, SocketType.Stream, ProtocolType.Tcp)
                    {
                        NoDelay = true,
                    };
                    socket.Bind(new IPEndPoint(IPAddress.Parse(from), 0));
                    await socket.ConnectAsync(IPAddress.Parse(at.Host), at.Port, cancellation);
                    return new NetworkStream(socket, ownsSocket: true);
                },
            }
        )
        {
            BaseAddress = at,
            Timeout = Hang.Limit,
        };

    /// <summary>Bytes as no browser would send them; the answer until the site closes.</summary>
    public static async Task<string> RawAsync(Uri at, string request, string from = "127.0.0.1")
    {
        using var socket = new Socket(AddressFamily.InterNetwork, SocketType.Stream, ProtocolType.Tcp);
        socket.Bind(new IPEndPoint(IPAddress.Parse(from), 0));
        await socket.ConnectAsync(IPAddress.Parse(at.Host), at.Port, TestContext.Current.CancellationToken);
        await using var stream = new NetworkStream(socket);
        await stream.WriteAsync(Encoding.Latin1.GetBytes(request), TestContext.Current.CancellationToken);
        using var reader = new StreamReader(stream, Encoding.Latin1);
        return await reader.ReadToEndAsync(TestContext.Current.CancellationToken);
    }

    /// <summary>Ends the site; its folder stays until the end of the test.</summary>
    public ValueTask StopAsync() => site.DisposeAsync();

    public async ValueTask DisposeAsync()
    {
        await site.DisposeAsync();
        JobStore.Release();
        Directory.Delete(DataFolder, recursive: true);
    }
}

internal static class Pairing
{
    /// <summary>Opens the page for it, types the code and a name, and sends.</summary>
    public static async Task<HttpResponseMessage> PairAsync(
        this HttpClient client,
        string code,
        string name = "Ada's phone"
    ) =>
        await client.SendAsync(
            "/pair",
            (await client.HiddenOfAsync("/pair")).Concat(
                new Dictionary<string, string> { ["code"] = code, ["name"] = name }
            )
        );

    public static async Task<HttpStatusCode> LooksAtAsync(this HttpClient client, string path)
    {
        using var answer = await client.GetAsync(
            new Uri(path, UriKind.Relative),
            TestContext.Current.CancellationToken
        );
        return answer.StatusCode;
    }
}
