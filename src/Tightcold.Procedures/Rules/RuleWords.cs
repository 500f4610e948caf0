namespace Tightcold.Procedures.Rules;

/// <summary>The book's lines as sentences.</summary>
public static class RuleWords
{
    private static readonly Dictionary<Act, string> Acts = new()
    {
        [Act.Buy] = "Buying",
        [Act.Own] = "Keeping a stock",
        [Act.Charge] = "Charging",
        [Act.UseCan] = "Disposable cans",
        [Act.Recover] = "Recovering",
        [Act.Vent] = "Letting out",
        [Act.TopUp] = "Topping up a leak",
        [Act.Check] = "Leak check",
        [Act.Write] = "Record",
    };

    /// <summary>The rule where the act is, in one line: “Recovering, Germany: only …”.</summary>
    public static string Line(PlaceRules place, RuleAnswer answer) =>
        answer.Line is { } line
            ? $"{Acts[answer.Act]}, {place.Name}: {Plain(line)}."
            : $"{Acts[answer.Act]}, {place.Name}: nothing in the book; ask {place.Books[0].Authority}.";

    /// <summary>Whom a line binds is said where it is not everybody; what is not known says whom to ask.</summary>
    public static string Plain(RuleLine line) =>
        (line.Binds, line.Ruling) switch
        {
            (_, Ruling.NotKnown) => $"{line.Says}; ask {line.Ask}",
            (Who.Owner, _) when !line.Says.Contains("own", StringComparison.OrdinalIgnoreCase) =>
                $"{line.Says} (unpaid, on an own car)",
            (Who.ForPay, _)
                when !line.Says.Contains("pay", StringComparison.OrdinalIgnoreCase)
                    && !line.Says.Contains("provider", StringComparison.OrdinalIgnoreCase) =>
                $"{line.Says} (for pay or in trade)",
            _ => line.Says,
        };

    /// <summary>The refrigerants a line is about, for a list of lines; empty where it is about all or names them
    /// itself.</summary>
    public static string About(RuleLine line) =>
        line.Refrigerants.IsEmpty || line.Refrigerants.Any(name => line.Says.StartsWith(name, StringComparison.Ordinal))
            ? ""
            : string.Join(", ", line.Refrigerants) + ": ";

    /// <summary>Where it stands: instrument, article, since when, when read, how sure.</summary>
    public static string ReadOn(RuleLine line) =>
        string.Join(
            "; ",
            new[]
            {
                Stands(line),
                Sure(line),
                line.Ask.Length > 0 && line.Ruling != Ruling.NotKnown ? $"ask {line.Ask}" : "",
            }.Where(part => part.Length > 0)
        );

    /// <summary>Instrument, article, since when.</summary>
    public static string Stands(RuleLine line) =>
        (line.Article.Length > 0 && line.Article != "ask" ? $"{line.Instrument}, {line.Article}" : line.Instrument)
        + (line.InForce.Length > 0 && line.Sure != Sureness.Practice ? $"; since {line.InForce}" : "");

    /// <summary>How well it is known, with the day.</summary>
    public static string Sure(RuleLine line) =>
        line.Sure switch
        {
            Sureness.Text => $"text read on {line.Read} ({line.Seen})",
            Sureness.Summary => $"summary read on {line.Read} ({line.Seen})",
            Sureness.Memory => $"from memory on {line.Read}, text not read",
            Sureness.Practice => "common practice, no law",
            _ => line.Seen.Length > 0
                ? $"looked for on {line.Read}, not read ({line.Seen})"
                : $"looked for on {line.Read}, no text read",
        };
}
