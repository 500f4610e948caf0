using System.Runtime.CompilerServices;

namespace Tightcold.Loop.Tests.Reference;

/// <summary>The validation table is computed, not typed: a result that moves makes the document wrong, and this test
/// says where.</summary>
public sealed class ValidationTableTests
{
    [Fact]
    public void Every_line_of_the_validation_table_is_what_the_model_says_today()
    {
        var document = File.ReadAllText(
            Path.Combine(Path.GetDirectoryName(Here())!, "..", "..", "..", "docs", "validation.md")
        );
        var lines = ValidationRows.All().ToList();
        var missing = lines.Where(line => !document.Contains(line, StringComparison.Ordinal)).ToList();
        Assert.True(missing.Count == 0, $"docs/validation.md lacks:\n{string.Join('\n', missing)}");
    }

    private static string Here([CallerFilePath] string path = "") => path;
}
