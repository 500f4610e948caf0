using System.Text.Json;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;

namespace Tightcold.Catalogues;

/// <summary>The rooms of the house as the compiler sees them: their files, and what the build made of their
/// pages.</summary>
public static class Rooms
{
    /// <summary>Rooms in which nothing is said to people.</summary>
    private static readonly string[] Silent = ["Numerics"];

    private const string RuleBooks = "src/Tightcold.Procedures/Rules/Books";

    /// <summary>What people read of a book of rules; names of laws and offices are names.</summary>
    private static IEnumerable<string> Lines(string path)
    {
        using var book = JsonDocument.Parse(File.ReadAllText(path));
        foreach (var line in book.RootElement.GetProperty("lines").EnumerateArray())
        foreach (var field in (string[])["says", "ask"])
            if (line.TryGetProperty(field, out var text))
                yield return text.GetString()!;
    }

    public static Gatherer Gather(string root)
    {
        var references = ((string)AppContext.GetData("TRUSTED_PLATFORM_ASSEMBLIES")!)
            .Split(Path.PathSeparator)
            .Select(path => MetadataReference.CreateFromFile(path))
            .ToList();
        var gatherer = new Gatherer(path => Short(root, path));
        foreach (var folder in Directory.GetDirectories(Path.Combine(root, "src")).Order(StringComparer.Ordinal))
        {
            var name = Path.GetFileName(folder);
            if (Silent.Contains(name["Tightcold.".Length..]))
                continue;
            var made = Path.Combine(root, "artifacts", "obj", name, "release");
            var files = Directory
                .EnumerateFiles(folder, "*.cs", SearchOption.AllDirectories)
                .Where(file =>
                    !file.Contains(
                        Path.DirectorySeparatorChar + "obj" + Path.DirectorySeparatorChar,
                        StringComparison.Ordinal
                    )
                )
                .Concat(
                    Directory.Exists(made) ? Directory.EnumerateFiles(made, "*.cs", SearchOption.AllDirectories) : []
                )
                .Where(file => !file.EndsWith("AssemblyInfo.cs", StringComparison.Ordinal));
            var options = new CSharpParseOptions(LanguageVersion.Preview);
            // The name of another would see no internals; the room itself is left out of what it refers to.
            var compilation = CSharpCompilation.Create(
                name,
                files.Select(file => CSharpSyntaxTree.ParseText(File.ReadAllText(file), options, file)),
                references.Where(one => Path.GetFileNameWithoutExtension(one.Display) != name),
                new CSharpCompilationOptions(OutputKind.DynamicallyLinkedLibrary, allowUnsafe: true)
            );
            gatherer.Read(compilation);
        }
        foreach (
            var book in Directory.EnumerateFiles(Path.Combine(root, RuleBooks), "*.json").Order(StringComparer.Ordinal)
        )
            gatherer.Add(Short(root, book), Lines(book));
        return gatherer;
    }

    private static string Short(string root, string path) => Path.GetRelativePath(root, path).Replace('\\', '/');
}
