using System.Diagnostics;
using System.Text.Json.Nodes;

namespace Tightcold.Cli.Tests.Lan;

/// <summary>The real program with real private addresses: two network namespaces of this test's own, joined by a
/// virtual cable, one with the site, one with a visitor.</summary>
public sealed class NetworkTests : IDisposable
{
    private const string SiteAddress = "10.213.7.1";
    private const string VisitorAddress = "10.213.7.2";

    private readonly Desk desk = new();
    private readonly string site = "tc-site-" + Guid.NewGuid().ToString("N")[..6];
    private readonly string visitor = "tc-phone-" + Guid.NewGuid().ToString("N")[..6];

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    public void Dispose()
    {
        foreach (var space in new[] { site, visitor })
            Run("ip", "netns", "del", space).GetAwaiter().GetResult();
        desk.Dispose();
    }

    [Fact]
    public async Task A_visitor_at_another_address_of_the_network_is_out_until_paired_and_out_again_when_revoked()
    {
        Assert.SkipUnless(
            OperatingSystem.IsLinux() && await MakeNetworkAsync(),
            "this machine allows no network namespaces (root and iproute2 are needed) or has no curl"
        );
        using var program = Start();
        var said = JsonNode.Parse(await ReadObjectAsync(program.StandardOutput))!;
        try
        {
            var network = Assert.Single(said["network"]!.AsArray())!.ToString();
            Assert.StartsWith($"http://{SiteAddress}:", network, StringComparison.Ordinal);
            Assert.Equal("403", await StatusAsync(network));
            Assert.Equal(
                "403",
                await StatusAsync(network, "-b", "tightcold-device=AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA")
            );
            Assert.Equal("421", await StatusAsync(network, "-H", "Host: shop.example"));
            Assert.Equal("421", await StatusAsync(network, "-H", "Host: 127.0.0.1"));

            var jar = desk.File("jar");
            var (_, form) = await Run(
                "ip",
                "netns",
                "exec",
                visitor,
                "curl",
                "-sS",
                "-m",
                "60",
                "-c",
                jar,
                said["pairing-link"]!.ToString()
            );
            var token = form.Split("name=\"token\" value=\"")[1].Split('"')[0];
            Assert.Equal(
                "302",
                await StatusAsync(
                    network + "pair",
                    "-b",
                    jar,
                    "-c",
                    jar,
                    "--data-urlencode",
                    "token=" + token,
                    "--data-urlencode",
                    "code=" + said["pairing-code"],
                    "--data-urlencode",
                    "name=Ada's phone"
                )
            );
            Assert.Equal("200", await StatusAsync(network, "-b", jar));
            Assert.Equal("403", await StatusAsync(network + "devices", "-b", jar));
            Assert.Contains("Ada's phone", await desk.DoneAsync("devices", "list"), StringComparison.Ordinal);
            await desk.DoneAsync("devices", "revoke", "Ada's phone");
            Assert.Equal("403", await StatusAsync(network, "-b", jar));
            Assert.Contains("No device is paired", await desk.DoneAsync("devices", "list"), StringComparison.Ordinal);
        }
        finally
        {
            program.Kill(entireProcessTree: true);
            await program.WaitForExitAsync(Cancellation);
        }
    }

    [Fact]
    public async Task Without_lan_nothing_listens_at_an_address_of_the_network()
    {
        Assert.SkipUnless(
            OperatingSystem.IsLinux() && await MakeNetworkAsync(),
            "this machine allows no network namespaces (root and iproute2 are needed) or has no curl"
        );
        using var program = Start("--port", "5217", lan: false);
        try
        {
            Assert.Contains("127.0.0.1:5217", await ReadObjectAsync(program.StandardOutput), StringComparison.Ordinal);
            Assert.Equal("000", await StatusAsync($"http://{SiteAddress}:5217/"));
        }
        finally
        {
            program.Kill(entireProcessTree: true);
            await program.WaitForExitAsync(Cancellation);
        }
    }

    [Fact]
    public async Task What_does_not_go_with_the_network_is_refused_in_a_sentence()
    {
        await desk.OpenJobAsync();
        await desk.RefusedAsync("it goes with --lan", "serve", "--address", "10.0.0.1");
        await desk.RefusedAsync("it goes with --lan", "serve", "--certificate", "x.pem");
        await desk.RefusedAsync(
            "a private address of this machine is allowed",
            "serve",
            "--lan",
            "--address",
            "203.0.113.7"
        );
        await desk.RefusedAsync(
            "a private address of this machine is allowed",
            "serve",
            "--lan",
            "--address",
            "0.0.0.0"
        );
        await desk.RefusedAsync(
            "a private address of this machine is allowed",
            "serve",
            "--lan",
            "--address",
            "127.0.0.1"
        );
        await desk.RefusedAsync("no paired device", "devices", "revoke", "nobody's");
    }

    private async Task<bool> MakeNetworkAsync()
    {
        if ((await Run("curl", "--version")).Code != 0)
            return false;
        foreach (var space in new[] { site, visitor })
            if ((await Run("ip", "netns", "add", space)).Code != 0)
                return false;
        string cable = "tc" + site[^6..],
            other = "tp" + site[^6..];
        return await IpAsync(
                "link",
                "add",
                cable,
                "netns",
                site,
                "type",
                "veth",
                "peer",
                "name",
                other,
                "netns",
                visitor
            )
            && await IpAsync("-n", site, "addr", "add", SiteAddress + "/24", "dev", cable)
            && await IpAsync("-n", visitor, "addr", "add", VisitorAddress + "/24", "dev", other)
            && await IpAsync("-n", site, "link", "set", cable, "up")
            && await IpAsync("-n", visitor, "link", "set", other, "up")
            && await IpAsync("-n", site, "link", "set", "lo", "up");
    }

    private static async Task<bool> IpAsync(params string[] words) => (await Run("ip", words)).Code == 0;

    /// <summary>000 when nothing answers.</summary>
    private async Task<string> StatusAsync(string address, params string[] more) =>
        (
            await Run(
                "ip",
                [
                    "netns",
                    "exec",
                    visitor,
                    "curl",
                    "-sS",
                    "-m",
                    "60",
                    "-o",
                    "/dev/null",
                    "-w",
                    "%{http_code}",
                    .. more,
                    address,
                ]
            )
        ).Out;

    private Process Start(params string[] more) => Start(more, lan: true);

    private Process Start(string first, string second, bool lan) => Start([first, second], lan);

    private Process Start(string[] more, bool lan)
    {
        var dotnet =
            Environment.ProcessPath is { } host && Path.GetFileNameWithoutExtension(host) == "dotnet" ? host : "dotnet";
        var start = new ProcessStartInfo("ip") { RedirectStandardOutput = true, RedirectStandardError = true };
        foreach (
            var word in (string[])
                [
                    "netns",
                    "exec",
                    site,
                    dotnet,
                    Path.Combine(AppContext.BaseDirectory, "tightcold.dll"),
                    "serve",
                    "--json",
                    "--data",
                    desk.Folder,
                    .. lan ? ["--lan", "--port", "0"] : Array.Empty<string>(),
                    .. more,
                ]
        )
            start.ArgumentList.Add(word);
        return Process.Start(start)!;
    }

    /// <summary>The program says one JSON object and goes on running.</summary>
    private static async Task<string> ReadObjectAsync(StreamReader from)
    {
        var text = "";
        while (await from.ReadLineAsync(Cancellation) is { } line)
        {
            text += line + "\n";
            if (line == "}")
                return text;
        }
        throw new InvalidOperationException("the program ended: " + text);
    }

    private static async Task<(int Code, string Out)> Run(string program, params string[] words)
    {
        var start = new ProcessStartInfo(program) { RedirectStandardOutput = true, RedirectStandardError = true };
        foreach (var word in words)
            start.ArgumentList.Add(word);
        try
        {
            using var running = Process.Start(start)!;
            var errors = running.StandardError.ReadToEndAsync(Cancellation);
            var said = await running.StandardOutput.ReadToEndAsync(Cancellation);
            await running.WaitForExitAsync(Cancellation);
            await errors;
            return (running.ExitCode, said);
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return (-1, "");
        }
    }
}
