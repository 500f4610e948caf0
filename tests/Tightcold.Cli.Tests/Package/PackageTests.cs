using System.Diagnostics;
using System.Net;

namespace Tightcold.Cli.Tests.Package;

/// <summary>The program as one file, made and tried on a machine without .NET: no variable of this one reaches it, and its
/// path has no dotnet. Takes minutes and the compiler packages of the registry, so it runs when asked for:
/// <c>-explicit only -class "*PackageTests"</c>.</summary>
public sealed class PackageTests
{
    private static readonly TimeSpan Allowed = TimeSpan.FromMinutes(10);

    [Fact(Explicit = true)]
    public async Task The_package_is_made_within_ten_minutes_and_runs_where_there_is_no_dotnet()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "the package that is run is the one for Linux");
        var root = Root();
        var began = Stopwatch.StartNew();
        // Its last act is packaging/check: help, demo, site and starts, under “env -i”.
        var made = await RealProgram.RunAsync(Path.Combine(root, "package"), "", "linux-x64");
        Assert.True(made!.Code == 0, made.Out + made.Trouble);
        Assert.True(began.Elapsed < Allowed, $"it took {began.Elapsed.TotalMinutes:0.0} minutes");
        var program = Path.Combine(root, "artifacts", "package", "linux-x64", "tightcold");
        var folder = Directory.CreateTempSubdirectory("tightcold-test-").FullName;
        try
        {
            var path = Path.Combine(folder, "bin");
            Directory.CreateDirectory(path);
            string[] alone = ["-i", $"HOME={folder}", $"PATH={path}", program];
            string[] data = ["--data", Path.Combine(folder, "data")];
            foreach (
                var words in new[]
                {
                    new[] { "car", "new", "label=blue estate", "refrigerant=R-134a" },
                    ["job", "new", "blue estate", "blows warm"],
                    ["job", "add", "1", "standing-reading", "low-side=34 psig", "ambient-temperature=77 °F"],
                    ["job", "findings", "1"],
                    ["check"],
                    ["backup"],
                }
            )
            {
                var answer = await RealProgram.RunAsync("env", "", [.. alone, .. words, .. data]);
                Assert.True(answer!.Code == 0, $"{string.Join(' ', words)}: {answer.Trouble}");
            }
            var dotnet = await RealProgram.RunAsync(
                "env",
                "",
                "-i",
                $"PATH={path}",
                "/bin/sh",
                "-c",
                "command -v dotnet"
            );
            Assert.NotEqual(0, dotnet!.Code);
            await TheOwnersLinkOpensAsync(alone, data);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    /// <summary>Into a file the site prints no link; the command for it does, and the browser that opens it sees the
    /// job that was written down before.</summary>
    private static async Task TheOwnersLinkOpensAsync(string[] alone, string[] data)
    {
        var start = new ProcessStartInfo("env", [.. alone, "serve", "--port", "0", .. data])
        {
            RedirectStandardOutput = true,
        };
        using var site = Process.Start(start)!;
        try
        {
            await site.StandardOutput.ReadLineAsync(TestContext.Current.CancellationToken);
            var said = await RealProgram.RunAsync("env", "", [.. alone, "owner", .. data]);
            var link = new Uri(said!.Out.Split().First(word => word.StartsWith("http", StringComparison.Ordinal)));
            using var owner = new HttpClient(new HttpClientHandler { UseProxy = false });
            var page = await owner.GetStringAsync(link, TestContext.Current.CancellationToken);
            Assert.Contains("blue estate", page, StringComparison.Ordinal);
            using var stranger = new HttpClient(new HttpClientHandler { UseProxy = false });
            using var refused = await stranger.GetAsync(link, TestContext.Current.CancellationToken);
            Assert.Equal(HttpStatusCode.Forbidden, refused.StatusCode);
        }
        finally
        {
            site.Kill();
            await site.WaitForExitAsync(TestContext.Current.CancellationToken);
        }
    }

    private static string Root()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
            if (File.Exists(Path.Combine(folder.FullName, "Tightcold.slnx")))
                return folder.FullName;
        throw new InvalidOperationException("the tests do not stand inside the tree");
    }
}
