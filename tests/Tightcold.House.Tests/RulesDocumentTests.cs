using System.Globalization;
using System.Text;
using Tightcold.Procedures.Rules;

namespace Tightcold.House.Tests;

/// <summary>docs/rules.md is the book itself, line by line: what stands there was read from the same files.</summary>
public sealed class RulesDocumentTests
{
    private const string From = "<!-- the book -->\n";

    private static readonly (Question Question, string Head)[] Heads =
    [
        (Question.Buy, "buy"),
        (Question.Own, "keep"),
        (Question.Charge, "charge"),
        (Question.Recover, "recover"),
        (Question.Vent, "let out"),
        (Question.TopUp, "top up"),
        (Question.Cans, "cans"),
        (Question.LeakCheck, "leak check"),
        (Question.Records, "records"),
        (Question.Cylinder, "cylinders"),
        (Question.Equipment, "equipment"),
        (Question.Warming, "warming"),
    ];

    [Fact]
    public void The_document_of_rules_holds_the_book_as_it_is()
    {
        var document = House.Read("docs/rules.md");
        var at = document.IndexOf(From, StringComparison.Ordinal);
        Assert.True(at > 0, "docs/rules.md has no mark where the book begins");
        var expected = Written();
        if (document[(at + From.Length)..] == expected)
            return;
        var file = Path.Combine(Path.GetTempPath(), "rules-book.md");
        File.WriteAllText(file, expected);
        Assert.Fail($"docs/rules.md is not the book: what belongs below its mark was written to {file}");
    }

    private static string Written()
    {
        var text = new StringBuilder("\n## Place by question\n\n");
        text.Append("| place | ").AppendJoin(" | ", Heads.Select(head => head.Head)).Append(" |\n");
        text.Append("|---|").Append(string.Concat(Heads.Select(_ => "---|"))).Append('\n');
        foreach (var book in RuleBook.All)
        {
            text.Append("| ")
                .Append(book.Name)
                .Append(" | ")
                .AppendJoin(" | ", Heads.Select(head => Cell(book, head.Question)))
                .Append(" |\n");
        }
        text.Append("\n## Line by line\n");
        foreach (var book in RuleBook.All)
        {
            text.Append("\n### ").Append(book.Name).Append("\n\n");
            if (book.Covers.Length > 0)
                text.Append("Codes: ").AppendJoin(", ", book.Covers).Append(". ");
            text.Append("Ask: ").Append(book.Authority).Append('.');
            if (book.Under is { } under)
                text.Append(" What is not said here stands under " + "")
                    .Append(RuleBook.All.Single(other => other.Key == under).Name)
                    .Append('.');
            text.Append("\n\n| question | what | whom | where it stands |\n|---|---|---|---|\n");
            foreach (var (question, head) in Heads)
            foreach (var line in book.Lines.Where(line => line.Question == question))
                text.Append(
                    CultureInfo.InvariantCulture,
                    $"| {head} | {RuleWords.About(line)}{RuleWords.Plain(line)} | {Whom(line)} | "
                        + $"{RuleWords.ReadOn(line)} |\n"
                );
        }
        return text.ToString();
    }

    /// <summary>The strictest line that is known, and how sure; an arrow where the book above answers.</summary>
    private static string Cell(Book book, Question question)
    {
        var all = book.Lines.Where(line => line.Question == question).ToArray();
        if (all.Length == 0)
            return "↑";
        // The whole act before a case of it, the refrigerants of today before R-12.
        var lines = all.Where(line => line.Limit.Length == 0 && !IsOld(line)).ToArray();
        if (lines.Length == 0)
            lines = all;
        var line = lines.Where(line => line.Ruling != Ruling.NotKnown).MaxBy(line => line.Ruling) ?? lines[0];
        var known =
            line.Ruling == Ruling.NotKnown ? "" : $", {line.Sure.ToString().ToLowerInvariant()}, {line.InForce[..4]}";
        return (IsOld(line) ? "R-12: " : "") + Word(line.Ruling) + known;
    }

    private static bool IsOld(RuleLine line) => line.Refrigerants is ["R-12"];

    private static string Word(Ruling ruling) =>
        ruling switch
        {
            Ruling.Fact => "fact",
            Ruling.Allowed => "allowed",
            Ruling.Duty => "duty",
            Ruling.Qualified => "**qualified**",
            Ruling.Forbidden => "**forbidden**",
            _ => "?",
        };

    private static string Whom(RuleLine line) =>
        line.Binds switch
        {
            Who.Owner => "owners",
            Who.ForPay => "for pay",
            _ => "all",
        };
}
