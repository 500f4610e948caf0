using System.Diagnostics;
using System.Net;

namespace Tightcold.Cli.Tests.Lan;

/// <summary>The link that makes a browser the owner's: a person at the terminal reads it, a log never holds it.</summary>
public sealed class OwnersLinkTests : IDisposable
{
    private readonly Desk desk = new();

    public void Dispose() => desk.Dispose();

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_terminal_shows_the_link_and_it_lets_one_browser_in()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "the terminal is made by util-linux");
        var program = Path.Combine(AppContext.BaseDirectory, "tightcold.dll");
        var start = new ProcessStartInfo(
            "script",
            ["-qec", $"dotnet '{program}' serve --port 0 --data '{desk.Folder}'", "/dev/null"]
        )
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
        };
        using var terminal = Process.Start(start)!;
        try
        {
            var link = await FirstAsync(terminal, "/owner?key=");
            Assert.NotNull(link);
            using var browser = new HttpClient(new HttpClientHandler { UseProxy = false });
            using var page = await browser.GetAsync(link, Stop);
            Assert.Equal(HttpStatusCode.OK, page.StatusCode);
            using var other = new HttpClient(new HttpClientHandler { UseProxy = false });
            using var refused = await other.GetAsync(link, Stop);
            Assert.Equal(HttpStatusCode.Forbidden, refused.StatusCode);
        }
        finally
        {
            terminal.Kill(entireProcessTree: true);
            await terminal.WaitForExitAsync(Stop);
        }
    }

    [Fact]
    public async Task What_is_not_a_terminal_is_told_of_the_command_and_gets_no_key()
    {
        using var site = RealProgram.Start("serve", "--port", "0", "--data", desk.Folder);
        try
        {
            string?[] said = [await LineAsync(site), await LineAsync(site)];
            Assert.Contains("tightcold owner prints a link", said[1], StringComparison.Ordinal);
            Assert.DoesNotContain("key=", string.Concat(said), StringComparison.Ordinal);
        }
        finally
        {
            site.Kill(entireProcessTree: true);
            await site.WaitForExitAsync(Stop);
        }
    }

    private static Task<string?> LineAsync(Process program) => program.StandardOutput.ReadLineAsync(Stop).AsTask();

    private static async Task<string?> FirstAsync(Process program, string mark)
    {
        while (await LineAsync(program) is { } line)
            if (line.Split().FirstOrDefault(word => word.Contains(mark, StringComparison.Ordinal)) is { } found)
                return found;
        return null;
    }
}
