using System.Collections.Immutable;
using System.Text;
using Tightcold.Tongues;

namespace Tightcold.Catalogues;

/// <summary>The files of the catalogues: what the code says, beside what each language says for it.</summary>
public static class Books
{
    private const string Folder = "src/Tightcold.Tongues/Catalogues";

    public static string Path(string root, string name) => System.IO.Path.Combine(root, Folder, name + ".po");

    /// <summary>One message for each text and place, in the order of the files.</summary>
    internal static ImmutableArray<Catalogue.Message> Template(IEnumerable<Gathered> found) =>
        [
            .. found
                .GroupBy(one => (one.Context, one.Id))
                .Select(group =>
                {
                    var plural = group.Select(one => one.Plural).FirstOrDefault(many => many is not null);
                    var places = group.First().Places;
                    return new Catalogue.Message(
                        group.Key.Context,
                        group.Key.Id,
                        plural,
                        [],
                        [
                            .. places.Select((code, at) => $"#. {{{at}}}: {OneLine(code)}"),
                            .. group
                                .Select(one => one.File)
                                .Distinct()
                                .Order(StringComparer.Ordinal)
                                .Take(3)
                                .Select(file => $"#: {file}"),
                        ]
                    );
                })
                .OrderBy(message => message.Notes.LastOrDefault(), StringComparer.Ordinal)
                .ThenBy(message => message.Id, StringComparer.Ordinal)
                .ThenBy(message => message.Context, StringComparer.Ordinal),
        ];

    /// <summary>The template with what a language has said so far.</summary>
    internal static string Merged(ImmutableArray<Catalogue.Message> template, Catalogue old)
    {
        var forms = Forms(old);
        var said = old
            .Messages.GroupBy(message => (message.Context, message.Id))
            .ToDictionary(group => group.Key, group => group.Last());
        var text = new StringBuilder();
        foreach (var head in old.Messages.Where(message => message.Id.Length == 0))
            text.Append(Catalogue.Written(head)).Append('\n');
        foreach (var message in template)
        {
            var known = said.GetValueOrDefault((message.Context, message.Id));
            var many = message.Plural is null ? 1 : forms;
            text.Append(
                    Catalogue.Written(
                        message with
                        {
                            Said =
                                known is not null && known.Said.Length == many
                                    ? known.Said
                                    : [.. Enumerable.Repeat("", many)],
                            Notes =
                            [
                                .. (known?.Notes ?? []).Where(note =>
                                    note.StartsWith("# ", StringComparison.Ordinal)
                                    || note.StartsWith("#,", StringComparison.Ordinal)
                                ),
                                .. message.Notes,
                            ],
                        }
                    )
                )
                .Append('\n');
        }
        return text.ToString();
    }

    /// <summary>How many plural forms the head of a file says.</summary>
    internal static int Forms(Catalogue book)
    {
        var head = book.Messages.FirstOrDefault(message => message.Id.Length == 0)?.Said[0] ?? "";
        var at = head.IndexOf("nplurals=", StringComparison.Ordinal);
        return at < 0 ? 2 : head[at + "nplurals=".Length] - '0';
    }

    private static string OneLine(string code) =>
        string.Join(' ', code.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}
