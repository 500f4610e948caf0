using Tightcold.Jobs.Entries;

namespace Tightcold.House.Tests;

/// <summary>Nobody is asked for what nothing is made of.</summary>
public sealed class FieldTests
{
    // Where fields are declared, laid out, offered or invented, not read.
    private static readonly string[] Askers = ["EntryKinds.cs", "/Forms/", "/Pages/", "/Demo/"];

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
            .Select(House.Read)
            .ToArray();
        Assert.True(readers.Length > 200, $"only {readers.Length} files were found");
        string[] unread =
        [
            .. EntryKinds
                .All.SelectMany(kind => kind.Asked.Select(field => (kind, field)))
                .Where(pair => !readers.Any(text => text.Contains($"\"{pair.field.Name}\"", StringComparison.Ordinal)))
                .Select(pair => $"{pair.kind.Name}: {pair.field.Name}"),
        ];
        Assert.Empty(unread);
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
