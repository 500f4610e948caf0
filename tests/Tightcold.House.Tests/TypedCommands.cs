using System.Text.RegularExpressions;
using Microsoft.Extensions.Time.Testing;
using Spectre.Console.Testing;
using Tightcold.App.Desk;
using Tightcold.Cli.Wiring;
using Tightcold.Storage;

namespace Tightcold.House.Tests;

/// <summary>Runs a line as a person would type it, on a data folder of its own.</summary>
internal sealed partial class TypedCommands : IDisposable
{
    private readonly FakeTimeProvider clock = new(new DateTimeOffset(2031, 7, 4, 9, 0, 0, TimeSpan.Zero))
    {
        AutoAdvanceAmount = TimeSpan.FromSeconds(1),
    };

    public string Folder { get; } = Directory.CreateTempSubdirectory("tightcold-test-").FullName;

    public string File(string name) => Path.Combine(Folder, name);

    /// <summary>Examples that are read lie in the tree; what is written goes to the test's folder.</summary>
    private string Place(string word) =>
        System.IO.File.Exists(Path.Combine(House.Root, word)) ? Path.Combine(House.Root, word) : File(word);

    public async Task<(int Code, string Said)> RunAsync(string line)
    {
        var words = Word()
            .Matches(line.Split("  #")[0])
            .Select(word => word.Value.Replace("\"", "", StringComparison.Ordinal))
            .Skip(1)
            .ToList();
        // Files named in a document go to the test's folder.
        words =
        [
            .. words.Select(word =>
                Path.GetExtension(word) is ".html" or ".json" or ".svg" or ".csv" or ".pdf" or ".db" or ".1"
                    ? Place(word)
                    : word
            ),
        ];
        if (words[0] == "demo" && !words.Contains("--to"))
            words.AddRange(["--to", File("tightcold-demo.html")]);
        words.AddRange(["--data", Folder]);
        using var console = new TestConsole().Width(4000);
        using var trouble = new TestConsole().Width(4000);
        var code = await CommandLine.RunAsync(
            [.. words],
            new Surroundings(console, trouble, TextReader.Null, clock, new RandomIds()),
            TestContext.Current.CancellationToken
        );
        return (code, console.Output + trouble.Output);
    }

    public void Dispose()
    {
        JobStore.Release();
        Directory.Delete(Folder, recursive: true);
    }

    [GeneratedRegex("(\"[^\"]*\"|[^\\s\"])+")]
    private static partial Regex Word();
}
