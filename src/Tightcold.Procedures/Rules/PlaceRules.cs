using System.Collections.Immutable;
using Tightcold.Procedures.Places;
using Tightcold.Quantities;

namespace Tightcold.Procedures.Rules;

/// <summary>The rules where somebody works: of the region first, then of the country, then of the union it belongs
/// to.</summary>
/// <param name="Reading">The place as it was read.</param>
/// <param name="Books">The nearest first.</param>
public sealed record PlaceRules(PlaceReading Reading, ImmutableArray<Book> Books)
{
    public string Name =>
        Reading.Place?.Name is { } name
            ? Reading.Place.Country is { } country
                ? $"{name}, {country.Name}"
                : name
            : Books[0].Name;

    /// <summary>The same within a sentence: names stay as they are; where no place is known that is said in the
    /// reader's language.</summary>
    public Phrase Called => Reading.Place is null ? Phrase.Words(Books[0].Name) : Phrase.Verbatim(Name);

    /// <summary>What the book does not hold for this place, in sentences; empty when it holds it all.</summary>
    public ImmutableArray<Phrase> Unknown { get; } = [.. NotHeld(Reading, Books)];

    /// <summary>All lines; a nearer book's come first within a question.</summary>
    public IEnumerable<RuleLine> Lines => Enum.GetValues<Question>().SelectMany(Of);

    /// <summary>The nearest book that answers, with the farther ones' lines behind: a region adds to its country's
    /// rules.</summary>
    public IEnumerable<RuleLine> Of(Question question) =>
        Books
            .SelectMany(book => book.Lines.Where(line => line.Question == question))
            .OrderBy(line => line.Ruling == Ruling.NotKnown);

    /// <param name="refrigerant">In the car, or null when that is not known.</param>
    public RuleAnswer For(Act act, Who who, string? refrigerant = null)
    {
        var lines = Asked(act)
            .SelectMany(question => Of(question))
            .Where(line => line.Meets(who) && line.IsAbout(refrigerant))
            .ToImmutableArray();
        var settling = lines.Where(line => line.Question == Asked(act)[0] && line.Limit.Length == 0).ToArray();
        // What is said for a certain refrigerant, or by a nearer law, does not loosen what another line forbids.
        var known = settling.Where(line => line.Ruling != Ruling.NotKnown).ToArray();
        var line = (known.Length > 0 ? known : settling).MaxBy(line => line.Ruling)
            ?? lines.FirstOrDefault(line => line.Question == Asked(act)[0]);
        return new(
            act,
            who,
            line is null || settling.Length == 0 ? Ruling.NotKnown : line.Ruling,
            line,
            line is null ? [] : [line, .. lines.Where(other => other != line)]
        );
    }

    /// <summary>The warming potential that the law here counts with, and the line that says so; null where it was not
    /// read or does not name this refrigerant.</summary>
    public (double Potential, RuleLine Line)? WarmingOf(string refrigerant) =>
        Of(Question.Warming)
            .Where(line => line.Warming.ContainsKey(refrigerant))
            .Select(line => ((double, RuleLine)?)(line.Warming[refrigerant], line))
            .FirstOrDefault();

    /// <summary>The figure to count with here: the law's where it was read and names this refrigerant, else the one of
    /// an assessment report alone; null for a mixture or a gas nobody named.</summary>
    public WarmingFigure? Warming(string refrigerant)
    {
        if (WarmingOf(refrigerant) is { } known)
        {
            var book = Books.First(book => book.Lines.Contains(known.Line));
            return new(known.Potential, known.Line.Report, book.Key == RuleBook.Elsewhere ? null : book.Name);
        }
        var common = RuleBook
            .All.Single(book => book.Key == RuleBook.Elsewhere)
            .Lines.FirstOrDefault(line => line.Warming.ContainsKey(refrigerant));
        return common is null ? null : new(common.Warming[refrigerant], common.Report, null);
    }

    /// <summary>What this person must keep a record of here; null where no line asks for one.</summary>
    public RuleLine? RecordDuty(Who who, string? refrigerant) =>
        Of(Question.Records)
            .FirstOrDefault(line =>
                line.Ruling == Ruling.Duty && line.Asks.Length > 0 && line.Meets(who) && line.IsAbout(refrigerant)
            );

    private static ImmutableArray<Question> Asked(Act act) =>
        act switch
        {
            Act.Buy => [Question.Buy, Question.Cans],
            Act.Own => [Question.Own, Question.Cylinder],
            Act.Charge => [Question.Charge, Question.Equipment],
            Act.UseCan => [Question.Cans],
            Act.Recover => [Question.Recover, Question.Equipment, Question.Cylinder],
            Act.Vent => [Question.Vent],
            Act.TopUp => [Question.TopUp],
            Act.Check => [Question.LeakCheck],
            _ => [Question.Records],
        };

    private static IEnumerable<Phrase> NotHeld(PlaceReading reading, ImmutableArray<Book> books)
    {
        if (!reading.Sentence.IsEmpty)
            yield return reading.Sentence;
        if (reading.Place is not { } place)
            yield break;
        var name = Phrase.Verbatim(place.Name);
        if (books[0].Key == RuleBook.Elsewhere)
        {
            yield return Phrase.Of(
                $"The book holds no rules of {name}: what stands here is common in most places; ask its environment "
                    + $"authority."
            );
            yield break;
        }
        if (place.IsRegion && !books[0].Covers.Contains(place.Code))
            yield return Phrase.Of(
                $"The book holds no rules of {name} itself, only of {books[0].Name}: ask whether the region adds some."
            );
        if (
            !place.IsRegion
            && RuleBook.All.Any(book =>
                book.Covers.Any(code => code.StartsWith(place.Code + "-", StringComparison.Ordinal))
            )
        )
            yield return Phrase.Of($"Regions of {name} add rules: choose the region to see them.");
    }
}
