using System.Diagnostics;
using System.Text.RegularExpressions;
using Tightcold.Catalogues;

namespace Tightcold.Tongues.Tests;

/// <summary>The files of the languages against the code, which is read by the compiler.</summary>
public sealed partial class CatalogueTests
{
    private static readonly Lazy<string> Root = new(() =>
    {
        var folder = AppContext.BaseDirectory;
        while (!File.Exists(Path.Combine(folder, "Tightcold.slnx")))
            folder = Path.GetDirectoryName(folder)!;
        return folder;
    });

    private static readonly Lazy<Gatherer> Code = new(() => Rooms.Gather(Root.Value));

    public static TheoryData<string> Languages =>
        [.. AllTongues.All.Where(tongue => tongue != AllTongues.English).Select(tongue => tongue.Name)];

    private static Catalogue Book(string name)
    {
        using var reader = new StreamReader(Books.Path(Root.Value, name));
        return Catalogue.Read(reader);
    }

    private static IEnumerable<Catalogue.Message> Messages(string name) =>
        Book(name).Messages.Where(message => message.Id.Length > 0);

    [Theory]
    [MemberData(nameof(Languages))]
    public void Every_message_of_the_code_stands_in_the_catalogue_and_none_besides(string name)
    {
        var there = Messages(name).Select(message => (message.Context, message.Id, message.Plural)).ToHashSet();
        var code = Books
            .Template(Code.Value.Found)
            .Select(message => (message.Context, message.Id, message.Plural))
            .ToHashSet();
        Assert.True(code.Count > 2000, $"only {code.Count} messages were gathered");
        Assert.Empty(code.Except(there).Select(one => $"missing: {one}"));
        Assert.Empty(there.Except(code).Select(one => $"nobody says: {one}"));
    }

    /// <summary>The English travels once and the languages beside it: each must stand beside its own.</summary>
    [Theory]
    [MemberData(nameof(Languages))]
    public void The_program_carries_what_the_file_says(string name)
    {
        static IEnumerable<string> Lines(Catalogue book) =>
            book.Messages.Select(message =>
                Catalogue.Written(
                    message with
                    {
                        Notes = [.. message.Notes.Where(note => note.StartsWith("#,", StringComparison.Ordinal))],
                    }
                )
            );
        Assert.Equal(Lines(Book(name)), Lines(Catalogue.Shipped(name)));
    }

    [Theory]
    [MemberData(nameof(Languages))]
    public void Every_message_is_translated(string name) =>
        Assert.Empty(
            Messages(name)
                .Where(message => message.IsFuzzy || message.Said.Any(form => form.Length == 0))
                .Select(message => message.Id)
        );

    [Theory]
    [MemberData(nameof(Languages))]
    public void What_is_put_into_a_sentence_has_its_place_in_the_translation(string name)
    {
        foreach (var message in Messages(name))
        {
            var needed = Places(message.Plural ?? message.Id);
            foreach (var form in message.Said)
                // A form for one may say the number in words.
                Assert.True(
                    message.Plural is null
                        ? Places(form).SetEquals(needed)
                        : Places(form).IsSubsetOf(needed)
                            && Places(message.Id).Except(["{0}"]).All(Places(form).Contains),
                    $"{name}: {message.Id} → {form}"
                );
        }
    }

    [Theory]
    [MemberData(nameof(Languages))]
    public void A_translation_begins_and_ends_as_its_message_does(string name)
    {
        foreach (var message in Messages(name))
        foreach (var form in message.Said)
        {
            Assert.True(
                char.IsWhiteSpace(form[0]) == char.IsWhiteSpace(message.Id[0])
                    && char.IsWhiteSpace(form[^1]) == char.IsWhiteSpace(message.Id[^1]),
                $"{name}: “{message.Id}” → “{form}”"
            );
            if (message.Id[^1] == '.' && message.Id.Length > 12)
                Assert.True(form[^1] is '.' or '!' or '»' or '”', $"{name}: “{message.Id}” → “{form}”");
        }
    }

    /// <summary>The GNU program that made the format reads the files too.</summary>
    [Theory]
    [MemberData(nameof(Languages))]
    public async Task The_program_that_made_the_format_finds_nothing_wrong(string name)
    {
        Process? program = null;
        try
        {
            program = Process.Start(
                new ProcessStartInfo(
                    "msgfmt",
                    ["--check-format", "--check-header", "-o", "-", Books.Path(Root.Value, name)]
                )
                {
                    RedirectStandardError = true,
                    RedirectStandardOutput = true,
                }
            );
        }
        catch (System.ComponentModel.Win32Exception)
        {
            Assert.Skip("GNU gettext is not installed on this machine");
        }
        using (program)
        {
            var compiled = program!.StandardOutput.BaseStream.CopyToAsync(
                Stream.Null,
                TestContext.Current.CancellationToken
            );
            var said = await program.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
            await compiled;
            await program.WaitForExitAsync(TestContext.Current.CancellationToken);
            Assert.True(program.ExitCode == 0, said);
        }
    }

    [Fact]
    public void No_words_go_into_a_sentence_from_where_no_catalogue_can_know_them()
    {
        // Each is a name, a date, a list of keys or what a person typed: looked at one by one.
        var known = File.ReadAllLines(Path.Combine(Root.Value, "tests", "Tightcold.Tongues.Tests", "looked-at.txt"))
            .Where(line => line.Length > 0 && line[0] != '#')
            .ToHashSet();
        var now = Code.Value.LooseEnds.Select(end => $"{end.File}: {OneLine().Replace(end.Code, " ")}").ToHashSet();
        Assert.Empty(now.Except(known));
        Assert.Empty(known.Except(now).Select(gone => "no longer there: " + gone));
    }

    private static HashSet<string> Places(string text) => [.. Place().Matches(text).Select(match => match.Value)];

    [GeneratedRegex(@"\{\d+\}")]
    private static partial Regex Place();

    [GeneratedRegex(@"\s+")]
    private static partial Regex OneLine();
}
