using System.Text.RegularExpressions;
using Tightcold.App.Desk;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Json;
using Tightcold.Storage;

namespace Tightcold.House.Tests;

/// <summary>Documents are run and followed, not trusted.</summary>
public sealed partial class DocumentTests : IDisposable
{
    private readonly TypedCommands commands = new();

    public void Dispose() => commands.Dispose();

    private static IEnumerable<string> Documents() =>
        House.Files().Where(file => file.EndsWith(".md", StringComparison.Ordinal));

    [Fact]
    public void Every_link_in_a_document_leads_to_a_file()
    {
        var missing =
            from document in Documents()
            from Match link in Link().Matches(House.Read(document))
            let target = link.Groups["target"].Value
            where
                !target.Contains("://", StringComparison.Ordinal)
                && !target.StartsWith('#')
                && !target.StartsWith("mailto:", StringComparison.Ordinal)
            let path = Path.Combine(House.Root, Path.GetDirectoryName(document)!, target.Split('#')[0])
            where !File.Exists(path) && !Directory.Exists(path)
            select $"{document} → {target}";
        Assert.Empty(missing);
    }

    [Theory]
    [InlineData("README.md")]
    [InlineData("docs/commands.md")]
    public async Task The_commands_of_a_document_run_one_after_the_other(string document)
    {
        // A phone as the site would have paired it.
        new Web.Lan.DeviceBook(commands.Folder, TimeProvider.System).Add("Ada's phone");
        // The table of points that the document shows is the one its command reads.
        if (
            Fences(House.Read(document))
                .FirstOrDefault(block => block.StartsWith("pressure_bar,", StringComparison.Ordinal)) is
            { } points
        )
            await File.WriteAllTextAsync(commands.File("points.csv"), points, TestContext.Current.CancellationToken);
        var lines = Fences(House.Read(document))
            .SelectMany(block => block.Split('\n'))
            .Where(line => line.StartsWith("./tightcold ", StringComparison.Ordinal))
            .ToList();
        Assert.True(lines.Count >= 5);
        foreach (var line in lines.Where(line => !line.StartsWith("./tightcold serve", StringComparison.Ordinal)))
        {
            var (code, said) = await commands.RunAsync(line);
            Assert.True(code == 0, $"{document}: {line}\nended with {code}: {said}");
        }
    }

    [Fact]
    public void Every_command_of_the_program_has_an_example_in_the_documents()
    {
        var examples = Fences(House.Read("docs/commands.md")).SelectMany(block => block.Split('\n')).ToList();
        var commandsOfProgram = Cli.Wiring.CommandLine.Commands.Select(path => "./tightcold " + path).ToList();
        Assert.True(commandsOfProgram.Count >= 18);
        Assert.All(commandsOfProgram, command =>
            Assert.Contains(examples, line =>
                line == command || line.StartsWith(command + " ", StringComparison.Ordinal)
            )
        );
    }

    [Fact]
    public void Every_kind_of_entry_and_every_field_stands_in_the_description_of_the_job_file()
    {
        var sections = House
            .Read("docs/job-file.md")
            .Split("\n### `")
            .Skip(1)
            .ToDictionary(section => section.Split('`')[0]);
        Assert.Equal(EntryKinds.All.Select(kind => kind.Name), sections.Keys);
        foreach (var kind in EntryKinds.All)
        {
            var rows = Row()
                .Matches(sections[kind.Name])
                .Select(row => (row.Groups["field"].Value, row.Groups["needed"].Value.Trim() == "yes"));
            Assert.Equal(kind.Fields.Select(field => (field.Name, field.Required)), rows);
        }
    }

    [Fact]
    public async Task The_example_of_the_job_file_is_taken_in()
    {
        var example = Fences(House.Read("docs/job-file.md"))
            .First(block => block.Contains("\"tightcold-job\"", StringComparison.Ordinal));
        // Without photos a job stays what every program reads.
        Assert.Contains("\"version\": 1,", example, StringComparison.Ordinal);
        Assert.Contains(
            $"version 1, or {JobDocument.Version}",
            House.Read("docs/job-file.md"),
            StringComparison.Ordinal
        );
        var store = await JobStore.OpenAsync(commands.Folder, TestContext.Current.CancellationToken);
        var outcome = await new JobDesk(store, TimeProvider.System, new RandomIds()).ImportAsync(
            example,
            TestContext.Current.CancellationToken
        );
        Assert.True(outcome.Taken, string.Join('\n', outcome.Problems.Select(problem => problem.Sentence)));
    }

    internal static IEnumerable<string> Fences(string text) =>
        Fence().Matches(text).Select(block => block.Groups["block"].Value);

    [GeneratedRegex(@"\]\((?<target>[^)\s]+)\)")]
    private static partial Regex Link();

    [GeneratedRegex(@"^```\w*\n(?<block>.*?)^```", RegexOptions.Multiline | RegexOptions.Singleline)]
    private static partial Regex Fence();

    [GeneratedRegex(@"^\| `(?<field>[^`]+)` \|(?<needed>[^|]*)\|", RegexOptions.Multiline)]
    private static partial Regex Row();
}
