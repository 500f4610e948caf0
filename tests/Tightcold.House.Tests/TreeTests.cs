namespace Tightcold.House.Tests;

public sealed class TreeTests
{
    private static readonly string[] Binary = [".png", ".pdf", ".ico", ".woff2", ".db", ".table"];

    /// <summary>Written in two halves, so that this file does not find itself.</summary>
    private static readonly string[] Unwanted =
    [
        "/t" + "mp/",
        "/wo" + "rk/",
        "/ro" + "ot/",
        "/ho" + "me/",
        "/Us" + "ers/",
        @":\Us" + "ers",
        "nuget" + ".org",
        "npm" + "js.",
        "py" + "pi.",
        "worktree" + "/",
    ];

    [Fact]
    public void No_file_names_a_place_on_somebodys_machine_or_a_package_registry()
    {
        var found =
            from file in House.Files()
            where !Binary.Contains(Path.GetExtension(file))
            let text = House.Read(file)
            from word in Unwanted
            where text.Contains(word, StringComparison.OrdinalIgnoreCase)
            select $"{file}: {word}";
        Assert.Empty(found);
    }

    [Fact]
    public void Scripts_can_be_started()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "there is no such bit");
        foreach (var script in new[] { "tightcold", "test", ".ci/run" })
            Assert.True(
                OperatingSystem.IsWindows()
                    || File.GetUnixFileMode(Path.Combine(House.Root, script)).HasFlag(UnixFileMode.UserExecute),
                script
            );
    }

    [Fact]
    public void Lines_end_as_unix_has_it_and_files_end_with_a_line_end()
    {
        var wrong = House
            .Files()
            // NuGet writes its lock files without the last one.
            .Where(file => !Binary.Contains(Path.GetExtension(file)) && Path.GetFileName(file) != "packages.lock.json")
            .Where(file =>
                House.Read(file) is { Length: > 0 } text
                && (text.Contains('\r', StringComparison.Ordinal) || !text.EndsWith('\n'))
            );
        Assert.Empty(wrong);
    }
}
