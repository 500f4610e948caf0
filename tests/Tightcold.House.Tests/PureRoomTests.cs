using System.Diagnostics;
using System.Globalization;
using System.Text.RegularExpressions;

namespace Tightcold.House.Tests;

/// <summary>What a pure room must not know is put into one, and the build is watched refusing it.</summary>
public sealed partial class PureRoomTests : IDisposable
{
    /// <summary>A line of code that a pure room must not have, and the rule that has to find it there.</summary>
    private static readonly (string Rule, string Line)[] Forbidden =
    [
        ("RS0030", "DateTime.Now"),
        ("RS0030", "DateTime.UtcNow"),
        ("RS0030", "DateTime.Today"),
        ("RS0030", "DateTimeOffset.Now"),
        ("RS0030", "DateTimeOffset.UtcNow"),
        ("RS0030", "TimeProvider.System"),
        ("RS0030", "System.Diagnostics.Stopwatch.GetTimestamp()"),
        ("RS0030", "Random.Shared.Next()"),
        ("RS0030", "new Random()"),
        ("RS0030", "new Random(1).NextDouble()"),
        ("RS0030", "Guid.NewGuid()"),
        ("RS0030", "File.Exists(text)"),
        ("RS0030", "Directory.Exists(text)"),
        ("RS0030", "new FileInfo(text).Length"),
        ("RS0030", "new FileStream(text, FileMode.Open)"),
        ("RS0030", "Console.In"),
        ("RS0030", "Environment.ProcessorCount"),
        ("RS0030", "System.Globalization.CultureInfo.CurrentCulture"),
        ("RS0030", "System.Globalization.CultureInfo.CurrentUICulture"),
        ("CA1305", "double.Parse(text)"),
        ("CA1305", "int.Parse(text)"),
        ("CA1305", "number.ToString(\"F2\")"),
        ("CA1305", "string.Format(\"{0}\", number)"),
    ];

    private readonly string folder = Path.Combine(
        House.Root,
        "artifacts",
        $"pure-{Environment.ProcessId}",
        "Tightcold.Numerics"
    );

    public void Dispose() => Directory.Delete(Path.GetDirectoryName(folder)!, recursive: true);

    // A build of half a minute: asked for by name (-explicit only -class "*.PureRoomTests").
    [Fact(Explicit = true)]
    public void Each_forbidden_line_stops_the_build_of_a_room_and_an_allowed_one_does_not()
    {
        var found = Build([.. Forbidden.Select(one => one.Line), "double.Abs(number)"]);
        for (var i = 0; i < Forbidden.Length; i++)
            Assert.True(found.Contains((i, Forbidden[i].Rule)), $"{Forbidden[i].Line} was let in");
        Assert.DoesNotContain(found, one => one.Line == Forbidden.Length);
    }

    /// <summary>Builds a project that goes by the name of a pure room and so has its settings, a line of code a
    /// member.</summary>
    /// <returns>Which line was refused by which rule.</returns>
    private HashSet<(int Line, string Rule)> Build(string[] lines)
    {
        Directory.CreateDirectory(folder);
        File.WriteAllText(
            Path.Combine(folder, "Tightcold.Numerics.csproj"),
            """
            <Project Sdk="Microsoft.NET.Sdk">
            </Project>
            """
        );
        // The member of line i stands in line i + 1 of its file.
        File.WriteAllLines(
            Path.Combine(folder, "Members.cs"),
            [
                "namespace Tightcold.Numerics; public static class Members {",
                .. lines.Select((line, i) => $"public static object M{i}(string text, double number) => {line};"),
                "}",
            ]
        );
        var start = new ProcessStartInfo("dotnet")
        {
            WorkingDirectory = folder,
            RedirectStandardOutput = true,
            ArgumentList =
            {
                "build",
                "-nologo",
                "-v:quiet",
                "-nodeReuse:false",
                $"-p:ArtifactsPath={folder}/out",
                "-p:GenerateDocumentationFile=false",
            },
        };
        using var build = Process.Start(start)!;
        var said = build.StandardOutput.ReadToEnd();
        build.WaitForExit();
        Assert.True(build.ExitCode != 0, "the build let everything in");
        var found = Refused()
            .Matches(said)
            .Select(match =>
                (int.Parse(match.Groups[1].Value, CultureInfo.InvariantCulture) - 2, match.Groups[2].Value)
            )
            .ToHashSet();
        Assert.True(found.Count > 0, said);
        return found;
    }

    [GeneratedRegex(@"Members\.cs\((\d+),\d+\): error (\w+):")]
    private static partial Regex Refused();
}
