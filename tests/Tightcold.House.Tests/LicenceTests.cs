using System.Diagnostics;
using System.Text.Json.Nodes;

namespace Tightcold.House.Tests;

/// <summary>What others wrote and what of it travels with the program.</summary>
public sealed class LicenceTests
{
    private static readonly Version OldestSupported = new(8, 0);

    [Fact]
    public async Task Every_package_that_travels_is_listed_with_a_licence_that_somebody_looked_at()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "the list is a script of a shell");
        using var program = Process.Start(
            new ProcessStartInfo(Path.Combine(House.Root, "licences")) { RedirectStandardOutput = true }
        )!;
        var list = await program.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        await program.WaitForExitAsync(TestContext.Current.CancellationToken);
        Assert.True(program.ExitCode == 0, list);
        foreach (var (name, version) in Packages("src/Tightcold.Cli"))
            Assert.Contains(list.Split('\n'), line =>
                line.Split(' ', StringSplitOptions.RemoveEmptyEntries) is [var listed, var of, _, ..]
                && listed == name
                && of == version
            );
    }

    /// <summary>The parts of the framework that come as packages are supported as long as the framework of their
    /// number.</summary>
    [Fact]
    public void No_part_of_the_framework_that_travels_is_out_of_support()
    {
        var old = Packages("src/Tightcold.Cli")
            .Where(package =>
                package.Name.StartsWith("System.", StringComparison.Ordinal)
                || package.Name.StartsWith("Microsoft.", StringComparison.Ordinal)
            )
            .Where(package => Version.Parse(package.Version) < OldestSupported);
        Assert.Empty(old);
    }

    /// <summary>From the lock file: the version that is taken, not the one that somebody asked for.</summary>
    private static IEnumerable<(string Name, string Version)> Packages(string folder) =>
        from framework in JsonNode.Parse(House.Read(Path.Combine(folder, "packages.lock.json")))![
            "dependencies"
        ]!.AsObject()
        from package in framework.Value!.AsObject()
        where (string?)package.Value!["type"] != "Project"
        select (package.Key, (string)package.Value["resolved"]!);
}
