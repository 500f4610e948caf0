using System.Text.RegularExpressions;

namespace Tightcold.House.Tests;

/// <summary>A source is cited by its key: <c>[key]</c> in a comment, <c>"key"</c> in the data of a fluid.</summary>
public sealed partial class SourceTests
{
    private static IEnumerable<string> Code() =>
        House
            .Files()
            .Where(file =>
                (
                    file.StartsWith("src/", StringComparison.Ordinal)
                    || file.StartsWith("tools/", StringComparison.Ordinal)
                )
                && (file.EndsWith(".cs", StringComparison.Ordinal) || file.EndsWith(".json", StringComparison.Ordinal))
            );

    private static HashSet<string> Keys() =>
        [.. Entry().Matches(House.Read("docs/sources.bib")).Select(match => match.Groups[1].Value)];

    [Fact]
    public void Every_source_of_the_bibliography_is_cited_where_something_rests_on_it()
    {
        var cited = new HashSet<string>();
        foreach (var text in Code().Select(House.Read))
            cited.UnionWith(
                Keys()
                    .Where(key =>
                        text.Contains($"[{key}]", StringComparison.Ordinal)
                        || text.Contains($"\"{key}\"", StringComparison.Ordinal)
                    )
            );
        Assert.Empty(Keys().Except(cited));
    }

    [Fact]
    public void Every_key_that_the_code_cites_is_in_the_bibliography()
    {
        var unknown = Code()
            .Where(file => file.EndsWith(".cs", StringComparison.Ordinal))
            .SelectMany(file =>
                Cited().Matches(House.Read(file)).Select(match => match.Groups[1].Value).Select(key => (file, key))
            )
            .Where(pair => !Keys().Contains(pair.key))
            .ToList();
        Assert.Empty(unknown);
    }

    [GeneratedRegex(@"^@\w+\{([^,\s]+),", RegexOptions.Multiline)]
    private static partial Regex Entry();

    // A name and a year in brackets, in a comment: an index or an attribute has no such form.
    [GeneratedRegex(@"//.*?\[([a-zA-Z]+(?:19|20)\d\d[a-z]?)\]")]
    private static partial Regex Cited();
}
