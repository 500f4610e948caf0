using System.Collections.Immutable;
using System.Globalization;
using Tightcold.App.Typed;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Quantities;

namespace Tightcold.App.Sheets;

/// <summary>Which column of a spreadsheet means what, as its owner names them.</summary>
/// <param name="Columns">From the meaning (car, complaint, opened, car.FIELD, KIND.FIELD) to the name of the
/// column.</param>
/// <param name="Units">From the meaning to the unit of a column that has bare numbers.</param>
/// <param name="Values">From the meaning to what holds for all rows.</param>
/// <param name="DateFormat">How dates are written, such as dd.MM.yyyy; null for 2031-06-12.</param>
public sealed record SheetLayout(
    ImmutableDictionary<string, string> Columns,
    ImmutableDictionary<string, string> Units,
    ImmutableDictionary<string, string> Values,
    string? DateFormat,
    TimeZoneInfo Zone
)
{
    public const string Car = "car",
        Complaint = "complaint",
        Opened = "opened";

    /// <summary>Everything wrong with the naming, before a row is read.</summary>
    public IEnumerable<InputProblem> Check()
    {
        var meanings = Columns.Keys.Concat(Values.Keys).ToList();
        foreach (var meaning in meanings.Concat(Units.Keys).Distinct(StringComparer.Ordinal))
            if (Unknown(meaning) is { } problem)
                yield return problem;
        foreach (var twice in Columns.Keys.Intersect(Values.Keys, StringComparer.Ordinal))
            yield return InputProblem.Of("value", twice, $"a column is named for it already");
        foreach (var unit in Units.Keys.Except(Columns.Keys, StringComparer.Ordinal))
            yield return InputProblem.Of("unit", unit, $"no column is named for it");
        foreach (var needed in new[] { Car, Complaint, Opened }.Except(meanings, StringComparer.Ordinal))
            yield return InputProblem.Of(
                "column",
                "",
                $"which column says “{Phrase.Verbatim(needed)}” is needed: {Phrase.Verbatim(needed)}=NAME"
            );
    }

    private static InputProblem? Unknown(string meaning)
    {
        if (meaning is Car or Complaint or Opened)
            return null;
        var (kind, field) = Parts(meaning);
        if (kind == Car)
            return Missing(meaning, field, Jobs.Cars.Car.Schema);
        return EntryKinds.Find(kind) is { } schema
            ? Missing(meaning, field, schema)
            : InputProblem.Of(
                "column",
                meaning,
                $"{Near(kind)}car, complaint, opened, car.FIELD or KIND.FIELD is allowed, as in note.text"
            );
    }

    private static Phrase Near(string kind) =>
        Nearest.Hint(kind, EntryKinds.All.Select(known => known.Name).Append(Car));

    private static InputProblem? Missing(string meaning, string field, Schema schema)
    {
        if (schema.Find(field) is not null)
            return null;
        var names = schema.Fields.Select(known => known.Name).ToList();
        return InputProblem.Of(
            "column",
            meaning,
            $"{Nearest.Hint(field, names)}fields of {Phrase.Verbatim(schema.Name)} are "
                + $"{Phrase.Verbatim(string.Join(", ", names))}"
        );
    }

    /// <summary>“note.text” is the field text of the kind note.</summary>
    internal static (string Kind, string Field) Parts(string meaning) =>
        meaning.Split('.', 2) is [var kind, var field] ? (kind, field) : (meaning, "");

    /// <summary>A date is the noon of its day: when in the day is not known.</summary>
    internal DateTimeOffset? Moment(string text)
    {
        string[] formats = DateFormat is { } own ? [own] : ["yyyy-MM-dd", "yyyy-MM-dd HH:mm", "yyyy-MM-dd'T'HH:mm"];
        try
        {
            if (
                !DateTime.TryParseExact(
                    text,
                    formats,
                    CultureInfo.InvariantCulture,
                    DateTimeStyles.AllowWhiteSpaces,
                    out var local
                )
            )
                return null;
            if (local.TimeOfDay == TimeSpan.Zero)
                local = local.AddHours(12);
            return Zone.IsInvalidTime(local) ? null : new DateTimeOffset(local, Zone.GetUtcOffset(local));
        }
        catch (FormatException)
        {
            return null;
        }
    }
}
