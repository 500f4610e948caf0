using System.Diagnostics;

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
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
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
