using System.Text.RegularExpressions;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;

namespace Tightcold.House.Tests;

/// <summary>Nobody is asked for what nothing is made of.</summary>
public sealed class FieldTests
{
    // Where fields are declared, laid out, offered or invented, not read.
    private static readonly string[] Askers = ["FieldNames.cs", "/Forms/", "/Pages/", "/Demo/"];

    private static readonly Dictionary<string, string> Names = typeof(FieldNames)
        .GetFields()
        .ToDictionary(name => (string)name.GetRawConstantValue()!, name => $"FieldNames.{name.Name}");

    [Fact]
    public void Every_field_that_a_form_asks_for_is_read_by_somebody()
    {
        var readers = House
            .Files()
            .Where(file =>
                file.StartsWith("src/", StringComparison.Ordinal)
                && Path.GetExtension(file) is ".cs" or ".razor"
                && !Askers.Any(asker => file.Contains(asker, StringComparison.Ordinal))
            )
            .Select(WithoutDeclarations)
            .ToArray();
        Assert.True(readers.Length > 200, $"only {readers.Length} files were found");
        string[] unread =
        [
            .. EntryKinds
                .All.SelectMany(kind => kind.Asked.Select(field => (kind, field)))
                .Where(pair => !readers.Any(text => Reads(text, pair.field.Name)))
                .Select(pair => $"{pair.kind.Name}: {pair.field.Name}"),
        ];
        Assert.Empty(unread);
    }

    /// <summary>A kind declares its fields and may read one of them to refuse it.</summary>
    private static string WithoutDeclarations(string file) =>
        file.Contains("/Kinds/", StringComparison.Ordinal)
            ? string.Join(
                '\n',
                Regex.Matches(House.Read(file), @"ields\.\w+(?:<\w+>)?\([^)]*\)").Select(read => read.Value)
            )
            : House.Read(file);

    private static bool Reads(string text, string field) =>
        text.Contains($"\"{field}\"", StringComparison.Ordinal)
        || (Names.TryGetValue(field, out var name) && Regex.IsMatch(text, $@"\b{Regex.Escape(name)}\b"));

    [Fact]
    public void Nobody_asks_an_entry_for_a_field_by_a_name_of_his_own()
    {
        var own = House
            .Files()
            .Where(file =>
                file.StartsWith("src/", StringComparison.Ordinal) && Path.GetExtension(file) is ".cs" or ".razor"
            )
            .SelectMany(file =>
                Regex
                    .Matches(House.Read(file), @"Fields\s*\.(?:Si|Text|Number|Get<\w+>)\(\s*""([a-z-]+)""")
                    .Select(found => found.Groups[1].Value)
                    .Where(Names.ContainsKey)
                    .Select(name => $"{file}: {name}")
            );
        Assert.Empty(own);
    }

    [Fact]
    public void What_is_no_longer_asked_is_still_taken_from_an_old_job()
    {
        var retired = EntryKinds.All.SelectMany(kind => kind.Fields).Where(field => field.Retired).ToArray();
        Assert.NotEmpty(retired);
        Assert.All(retired, field => Assert.False(field.Required));
        Assert.DoesNotContain(EntryKinds.All.SelectMany(kind => kind.Asked), field => field.Retired);
    }
}
