using System.Xml.Linq;

namespace Tightcold.House.Tests;

public sealed class ArrowTests
{
    /// <summary>What a face may read besides the desk: what a picture holds, down to the quantities.</summary>
    private static readonly string[] Inside =
    [
        "Findings",
        "Picture",
        "Diagnosis",
        "LeakTests",
        "Loop",
        "Procedures",
        "Properties",
        "Jobs",
        "Quantities",
    ];

    /// <summary>What a room may use; the picture in docs/architecture.md. A project sees no room that it does not
    /// name.</summary>
    private static readonly Dictionary<string, string[]> Allowed = new()
    {
        ["Quantities"] = [],
        ["Numerics"] = [],
        ["LeakTests"] = ["Quantities"],
        ["Properties"] = ["Numerics", "Quantities"],
        ["Loop"] = ["Properties", "Numerics", "Quantities"],
        ["Diagnosis"] = ["LeakTests", "Loop", "Procedures", "Properties", "Numerics", "Quantities"],
        ["Procedures"] = ["Properties", "Numerics", "Quantities"],
        ["Jobs"] = ["LeakTests", "Quantities"],
        ["Picture"] = ["LeakTests", "Jobs", "Procedures", "Diagnosis", "Loop", "Properties", "Numerics", "Quantities"],
        ["Findings"] = ["LeakTests", "Picture", "Jobs", "Procedures", "Diagnosis", "Properties", "Quantities"],
        ["Tongues"] = ["Quantities"],
        ["Storage"] = ["Jobs", "Quantities"],
        ["LogStore"] = ["Jobs", "Quantities"],
        ["App"] = [.. Inside, "Numerics", "Tongues"],
        ["Pages"] = [.. Inside, "App", "Tongues"],
        ["Web"] = ["Findings", "Picture", "Jobs", "App", "Pages", "Storage", "Tongues", "Quantities"],
        ["Phone"] = ["Jobs", "App", "Pages", "LogStore", "Tongues", "Quantities"],
        ["Cli"] = [.. Inside, "App", "Pages", "Storage", "Web", "Tongues"],
    };

    private static string Room(string path) =>
        Path.GetFileNameWithoutExtension(path.Replace('\\', '/'))["Tightcold.".Length..];

    [Fact]
    public void Rooms_use_only_the_rooms_that_the_picture_allows()
    {
        var projects = House
            .Files()
            .Where(file =>
                file.StartsWith("src/", StringComparison.Ordinal) && file.EndsWith(".csproj", StringComparison.Ordinal)
            )
            .ToList();
        Assert.True(projects.Count >= 10);
        foreach (var project in projects)
        {
            var used = XDocument
                .Parse(House.Read(project))
                .Descendants("ProjectReference")
                .Select(reference => Room(reference.Attribute("Include")!.Value));
            Assert.All(used, other =>
                Assert.True(Allowed[Room(project)].Contains(other), $"{Room(project)} may not use {other}")
            );
        }
    }

    [Fact]
    public void Nothing_that_travels_refers_to_a_tool()
    {
        var projects = House
            .Files()
            .Where(file =>
                file.EndsWith(".csproj", StringComparison.Ordinal) && file.StartsWith("src/", StringComparison.Ordinal)
            );
        Assert.All(projects, project =>
            Assert.DoesNotContain(XDocument.Parse(House.Read(project)).Descendants("ProjectReference"), reference =>
                reference.Attribute("Include")!.Value.Contains("tools/", StringComparison.Ordinal)
            )
        );
    }

    /// <summary>
    /// The second world judges the product: it takes its front and what a refrigerant is, and none of the models
    /// behind.
    /// </summary>
    [Fact]
    public void The_second_world_uses_none_of_the_models_that_it_judges()
    {
        string[] allowed = ["Findings", "Properties", "Numerics"];
        const string Project = "tools/Tightcold.SecondWorld/Tightcold.SecondWorld.csproj";
        var used = XDocument
            .Parse(House.Read(Project))
            .Descendants("ProjectReference")
            .Select(reference => Room(reference.Attribute("Include")!.Value));
        Assert.All(used, room => Assert.Contains(room, allowed));
        string[] worlds = ["Cars/", "Leaks/", "Vacuum/", "Nitrogen/", "Search/"];
        string[] models = ["Loop", "Diagnosis", "Procedures", "Findings"];
        var laws = House
            .Files()
            .Where(file =>
                file.EndsWith(".cs", StringComparison.Ordinal)
                && worlds.Any(world =>
                    file.StartsWith("tools/Tightcold.SecondWorld/" + world, StringComparison.Ordinal)
                )
            );
        Assert.All(laws, file =>
            Assert.DoesNotContain(models, model =>
                House.Read(file).Contains("using Tightcold." + model, StringComparison.Ordinal)
            )
        );
    }

    [Fact]
    public void Every_project_stands_in_the_solution()
    {
        var solution = XDocument
            .Parse(House.Read("Tightcold.slnx"))
            .Descendants("Project")
            .Select(project => project.Attribute("Path")!.Value)
            .ToHashSet();
        Assert.All(House.Files().Where(file => file.EndsWith(".csproj", StringComparison.Ordinal)), file =>
            Assert.Contains(file, solution)
        );
    }

    [Fact]
    public void Package_versions_stand_in_one_place() =>
        Assert.All(House.Files().Where(file => file.EndsWith(".csproj", StringComparison.Ordinal)), file =>
            Assert.All(XDocument.Parse(House.Read(file)).Descendants("PackageReference"), package =>
                Assert.Null(package.Attribute("Version"))
            )
        );
}
