namespace Tightcold.House.Tests;

/// <summary>The tree as a person has it after cloning.</summary>
internal static class House
{
    private static readonly string[] NotOurs = [".git", "artifacts", "bin", "obj", "test-output", "TestResults"];

    public static string Root { get; } = FindRoot();

    public static string Read(string path) => File.ReadAllText(Path.Combine(Root, path));

    /// <summary>Paths from the root, with forward slashes, of all files that belong to the tree.</summary>
    public static IEnumerable<string> Files() => Files(Root);

    /// <summary>Cards that a person printed into the tree, as the README's first command does, are theirs.</summary>
    private static bool IsPrinted(string file) =>
        Path.GetFileName(file).StartsWith("tightcold-", StringComparison.Ordinal)
        && Path.GetExtension(file) is ".html" or ".pdf";

    private static IEnumerable<string> Files(string folder) =>
        Directory
            .EnumerateFiles(folder)
            .Where(file => Path.GetFileName(file) != ".git" && !IsPrinted(file))
            .Select(file => Path.GetRelativePath(Root, file).Replace('\\', '/'))
            .Concat(
                Directory
                    .EnumerateDirectories(folder)
                    .Where(inner => !NotOurs.Contains(Path.GetFileName(inner)))
                    .SelectMany(Files)
            );

    private static string FindRoot()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
            if (File.Exists(Path.Combine(folder.FullName, "Tightcold.slnx")))
                return folder.FullName;
        throw new InvalidOperationException("the tests do not stand inside the tree");
    }
}
