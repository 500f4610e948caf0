using System.Text.RegularExpressions;

namespace Tightcold.House.Tests;

/// <summary>Folders of a project as they name each other at the head of their files.</summary>
public sealed partial class CircleTests
{
    /// <summary>Circles that stand, and why; a circle that is broken is struck here too.</summary>
    private static readonly Dictionary<string, string> Known = new()
    {
        ["Tightcold.Cli: Commands, Commands.Charge, Commands.Loop, Commands.Props, Commands.Shell, Show, Wiring"] =
            "the table of commands names every command, and every command is one of its rows; so does help, which shows them",
        ["Tightcold.Diagnosis: Faults, Inference, Measurement, Priors"] =
            "a fault says what it looks like, how common it is and what speaks for it; a history's charge is told as an interval",
        ["Tightcold.Diagnosis: Leaks, Tightness"] =
            "what a way forward costs is counted over the pictures of the whole car, which are made of leaks",
        ["Tightcold.Jobs: Entries, Journals, Json, Kinds"] =
            "a kind refuses by what the journal holds, and an entry is written down as JSON, which makes it an entry again",
        ["Tightcold.Loop: Compressor, Condenser, Cycling, Designs, Evaporator, Inventory, Results, Solving"] =
            "a part reads the case that is being solved, the solver marches through the parts, and a design's volumes are solved for",
        ["Tightcold.Web: Http, Lan"] =
            "who looks is told by the door, and what the door refuses is answered with a page",
    };

    [GeneratedRegex(@"^\s*(?:global )?@?using (?:static )?(?:\w+ = )?(Tightcold\.\w[\w.]*)", RegexOptions.Multiline)]
    private static partial Regex Using();

    [Fact]
    public void Folders_of_a_project_use_each_other_in_one_direction()
    {
        var circles = Projects().SelectMany(Circles).Order().ToList();
        var unknown = circles.Where(circle => !Known.ContainsKey(circle));
        Assert.True(!unknown.Any(), $"folders in a circle:\n{string.Join('\n', unknown)}");
        var broken = Known.Keys.Except(circles);
        Assert.True(!broken.Any(), $"no circle any more:\n{string.Join('\n', broken)}");
        Assert.InRange(Known.Count, 0, 6);
        Assert.All(Known.Values, reason => Assert.True(reason.Length > 40, reason));
    }

    [Fact]
    public void A_circle_of_three_is_seen_and_a_chain_is_none()
    {
        var chain = new Dictionary<string, HashSet<string>> { ["a"] = ["b"], ["b"] = ["c"] };
        Assert.Empty(Circles(chain));
        chain["c"] = ["a"];
        chain["d"] = ["a"];
        Assert.Equal(["a", "b", "c"], Assert.Single(Circles(chain)));
    }

    private static IEnumerable<string> Projects() =>
        House
            .Files()
            .Where(file =>
                file.EndsWith(".csproj", StringComparison.Ordinal)
                && (
                    file.StartsWith("src/", StringComparison.Ordinal)
                    || file.StartsWith("tools/", StringComparison.Ordinal)
                )
            )
            .Select(file => Path.GetDirectoryName(file)!.Replace('\\', '/'));

    private static IEnumerable<string> Circles(string folder)
    {
        var project = Path.GetFileName(folder);
        string Place(string file) => string.Join('.', [project, .. file[(folder.Length + 1)..].Split('/')[..^1]]);
        var files = House
            .Files()
            .Where(file => file.StartsWith($"{folder}/", StringComparison.Ordinal))
            .Where(file => Path.GetExtension(file) is ".cs" or ".cshtml")
            .ToList();
        var folders = files.Select(Place).ToHashSet();
        var uses = new Dictionary<string, HashSet<string>>();
        foreach (var file in files)
        {
            var own = Place(file);
            foreach (Match match in Using().Matches(House.Read(file)))
            {
                // What a type offers is named with the type behind the folder; the project's own head is no folder.
                var other = match.Groups[1].Value;
                while (other.Length > project.Length && !folders.Contains(other))
                    other = other[..other.LastIndexOf('.')];
                if (other.Length > project.Length && other != own)
                    (uses.TryGetValue(own, out var all) ? all : uses[own] = []).Add(other);
            }
        }
        return Circles(uses)
            .Select(circle =>
                $"{project}: {string.Join(", ", circle.Select(name => name == project ? "." : name[(project.Length + 1)..]))}"
            );
    }

    /// <summary>Groups in which each can be reached from each; by Warshall's closure, the folders are few.</summary>
    private static IEnumerable<string[]> Circles(Dictionary<string, HashSet<string>> uses)
    {
        var names = uses.Keys.Union(uses.Values.SelectMany(all => all)).Order(StringComparer.Ordinal).ToList();
        var reaches = names.ToDictionary(name => name, name => uses.GetValueOrDefault(name)?.ToHashSet() ?? []);
        foreach (var middle in names)
        foreach (var from in names)
            if (reaches[from].Contains(middle))
                reaches[from].UnionWith(reaches[middle]);
        return names
            .Where(name => reaches[name].Contains(name))
            .GroupBy(name =>
                string.Join(' ', names.Where(other => reaches[name].Contains(other) && reaches[other].Contains(name)))
            )
            .Select(group => group.ToArray());
    }
}
