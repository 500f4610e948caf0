using System.Text.Json.Nodes;
using Microsoft.Extensions.Logging;
using Tightcold.Web.Http;

namespace Tightcold.Web.Tests;

/// <summary>The file log: lines that a machine reads, for its owner alone, and never more than a disk bears.</summary>
public sealed class SiteLogTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("tightcold-test-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public void A_full_file_is_followed_by_the_next_and_the_oldest_of_a_fortnight_go()
    {
        for (var day = 1; day <= 20; day++)
            File.WriteAllText(Path.Combine(folder, $"tightcold-202001{day:00}.log"), "{}\n");
        // More than one file holds, and fewer lines than may wait.
        const int Lines = 1500;
        var words = new string('x', 4000);
        using (var logs = SiteLog.Open(folder))
        {
            var log = logs.CreateLogger("test");
            for (var i = 0; i < Lines; i++)
#pragma warning disable CA1848, CA1873 // The line is the subject here.
                log.LogWarning("line {Number} {Words}", i, words);
#pragma warning restore CA1848, CA1873
        }
        var files = Directory.GetFiles(folder);
        Assert.Equal(14, files.Length);
        var written = files.Where(file => new FileInfo(file).Length > 3).Order(StringComparer.Ordinal).ToList();
        Assert.True(written.Count > 1, "all in one file");
        Assert.All(written, file => Assert.True(new FileInfo(file).Length <= 4_200_000 + 2 * words.Length, file));
        Assert.Equal(
            Enumerable.Range(0, Lines),
            written.SelectMany(File.ReadLines).Select(line => (int)JsonNode.Parse(line)!["Properties"]!["Number"]!)
        );
        if (!OperatingSystem.IsWindows())
            foreach (var file in written)
                Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(file));
    }
}
