using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;

namespace Tightcold.Cli.Wiring;

/// <summary>What may stand where the cursor is: commands, options, their choices, kinds of entries, fields and what
/// those take. Asks the program's own description only, never the data: the Tab key must not wait.</summary>
internal static class Completion
{
    /// <param name="words">The words after the program's name, the last one as far as it is typed.</param>
    public static IEnumerable<string> Of(IReadOnlyList<string> words)
    {
        var (before, last) = words.Count == 0 ? ([], "") : (words.SkipLast(1).ToList(), words[^1]);
        return Candidates(before, last)
            .Where(word => word.StartsWith(last, StringComparison.OrdinalIgnoreCase))
            .Distinct(StringComparer.Ordinal);
    }

    private static IEnumerable<string> Candidates(List<string> before, string last)
    {
        if (before.Count == 0)
            return CommandTable.All.Select(row => row.Path.Split(' ')[0]).Append("--help").Append("--version");
        if (before is [var only] && CommandTable.IsBranch(only))
            return CommandTable
                .All.Where(row => row.Path.StartsWith(only + " ", StringComparison.Ordinal))
                .Select(row => row.Path.Split(' ')[1])
                .Append("--help");
        return CommandTable.Find(before) is { } found ? OfCommand(found.Row, [.. before.Skip(found.Words)], last) : [];
    }

    private static IEnumerable<string> OfCommand(CommandRow row, List<string> before, string last)
    {
        if (before.Count > 0 && row.Words.Option(before[^1]) is { Value: not null } open)
            return open.Choices;
        if (last.StartsWith('-'))
            return row.Words.Options.SelectMany(option => option.Names).Append("--help");
        var places = Places(row, before);
        if (row.Fields(places) is { } schema && places.Count >= row.Words.Arguments.Count(word => !word.Many))
            return schema.Asked.SelectMany(field => Fields(field, last));
        var argument = row.Words.Arguments.ElementAtOrDefault(places.Count)
            ?? row.Words.Arguments.LastOrDefault(last => last.Many);
        if (argument is not null)
            return argument.Value == "KIND" ? EntryKinds.All.Select(kind => kind.Name) : argument.Choices;
        return [];
    }

    /// <summary>Words that stand for themselves, without options and what belongs to those.</summary>
    private static List<string> Places(CommandRow row, List<string> before)
    {
        var places = new List<string>();
        for (var i = 0; i < before.Count; i++)
        {
            if (!CommandReader.IsOption(before[i]))
                places.Add(before[i]);
            else if (row.Words.Option(before[i]) is { Value: not null })
                i++;
        }
        return places;
    }

    private static IEnumerable<string> Fields(FieldSpec field, string last) =>
        field.Type is FieldType.Choice choice && last.StartsWith(field.Name + "=", StringComparison.Ordinal)
            ? choice.Words.Select(word => $"{field.Name}={word}")
            : [field.Name + "="];
}
