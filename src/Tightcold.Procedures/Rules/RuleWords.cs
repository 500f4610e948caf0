using Tightcold.Quantities;

namespace Tightcold.Procedures.Rules;

/// <summary>The book's lines as sentences.</summary>
public static class RuleWords
{
    [Said("act of the law")]
    private static string Name(Act act) =>
        act switch
        {
            Act.Buy => "Buying",
            Act.Own => "Keeping a stock",
            Act.Charge => "Charging",
            Act.UseCan => "Disposable cans",
            Act.Recover => "Recovering",
            Act.Vent => "Letting out",
            Act.TopUp => "Topping up a leak",
            Act.Check => "Leak check",
            _ => "Record",
        };

    /// <summary>The rule where the act is, in one line: “Recovering, Germany: only …”.</summary>
    public static Phrase Line(PlaceRules place, RuleAnswer answer)
    {
        var act = Phrase.Words(Name(answer.Act), "act of the law");
        return answer.Line is { } line
            ? Phrase.Of($"{act}, {place.Called}: {Plain(line)}.")
            : Phrase.Of($"{act}, {place.Called}: nothing in the book; ask {place.Books[0].Authority}.");
    }

    /// <summary>Whom a line binds is said where it is not everybody; what is not known says whom to ask.</summary>
    public static Phrase Plain(RuleLine line) =>
        (line.Binds, line.Ruling) switch
        {
            (_, Ruling.NotKnown) => Phrase.Of($"{line.Says}; ask {line.Ask}"),
            (Who.Owner, _) when !line.Says.Contains("own", StringComparison.OrdinalIgnoreCase) => Phrase.Of(
                $"{line.Says} (unpaid, on an own car)"
            ),
            (Who.ForPay, _)
                when !line.Says.Contains("pay", StringComparison.OrdinalIgnoreCase)
                    && !line.Says.Contains("provider", StringComparison.OrdinalIgnoreCase) => Phrase.Of(
                $"{line.Says} (for pay or in trade)"
            ),
            _ => Phrase.Words(line.Says),
        };

    /// <summary>The refrigerants a line is about, for a list of lines; empty where it is about all or names them
    /// itself.</summary>
    public static string About(RuleLine line) =>
        line.Refrigerants.IsEmpty || line.Refrigerants.Any(name => line.Says.StartsWith(name, StringComparison.Ordinal))
            ? ""
            : string.Join(", ", line.Refrigerants) + ": ";

    /// <summary>Where it stands: instrument, article, since when, when read, how sure.</summary>
    public static Phrase ReadOn(RuleLine line) =>
        Phrase.Join(
            "; ",
            new[]
            {
                Stands(line),
                Sure(line),
                line.Ask.Length > 0 && line.Ruling != Ruling.NotKnown ? Phrase.Of($"ask {line.Ask}") : Phrase.Empty,
            }.Where(part => !part.IsEmpty)
        );

    /// <summary>Instrument, article, since when.</summary>
    public static Phrase Stands(RuleLine line)
    {
        var where =
            line.Article.Length > 0 && line.Article != "ask"
                ? Phrase.Of($"{line.Instrument}, {line.Article}")
                : Phrase.Words(line.Instrument);
        return line.InForce.Length > 0 && line.Sure != Sureness.Practice
            ? Phrase.Of($"{where}; since {Phrase.Verbatim(line.InForce)}")
            : where;
    }

    /// <summary>How well it is known, with the day.</summary>
    public static Phrase Sure(RuleLine line)
    {
        var day = Phrase.Verbatim(line.Read);
        return line.Sure switch
        {
            Sureness.Text => Phrase.Of($"text read on {day} ({line.Seen})"),
            Sureness.Summary => Phrase.Of($"summary read on {day} ({line.Seen})"),
            Sureness.Memory => Phrase.Of($"from memory on {day}, text not read"),
            Sureness.Practice => Phrase.Words("common practice, no law"),
            _ => line.Seen.Length > 0
                ? Phrase.Of($"looked for on {day}, not read ({line.Seen})")
                : Phrase.Of($"looked for on {day}, no text read"),
        };
    }
}
