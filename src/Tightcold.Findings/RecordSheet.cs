using System.Collections.Immutable;
using System.Globalization;
using Tightcold.Findings.Steps;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Jobs.Kits;
using Tightcold.Picture;
using Tightcold.Picture.Standing;
using Tightcold.Procedures.Rules;
using Tightcold.Quantities;
using static Tightcold.Picture.Pressures.Evidence;

namespace Tightcold.Findings;

/// <summary>What the place wants kept of this job, filled in as far as the journal holds it.</summary>
/// <param name="Rule">The rule, in one line.</param>
/// <param name="ReadOn">Where it stands.</param>
/// <param name="Rows">Each thing asked for; empty where it is not written down: to be filled in by hand.</param>
/// <param name="KeepUntil">The last day it must be kept; null where no span is known.</param>
public sealed record RecordSheet(
    Phrase Rule,
    Phrase ReadOn,
    ImmutableArray<(string Label, Phrase Value)> Rows,
    DateTimeOffset? KeepUntil
)
{
    /// <summary>Null where no record is asked of this person, or none is known to be.</summary>
    public static RecordSheet? Of(JobPicture picture)
    {
        ArgumentNullException.ThrowIfNull(picture);
        var record = picture.Record;
        var place = LawAndSubstance.PlaceOf(record);
        if (place.RecordDuty(LawAndSubstance.WhoWorks(record.Kit), record.Car.Refrigerant) is not { } line)
            return null;
        var last = record.Journal.Standing.Length > 0 ? record.Journal.Standing[^1].ObservedAt : record.Job.OpenedAt;
        return new(
            Phrase.Of($"{place.Called}: {RuleWords.Plain(line)}."),
            RuleWords.ReadOn(line),
            [.. line.Asks.Select(item => (Label(item), Value(item, picture, last)))],
            line.Years is { } years ? last.AddYears(years) : null
        );
    }

    /// <summary>What the place of the kit asks to keep, for the ledger; empty where nothing is asked, as far as
    /// known.</summary>
    public static ImmutableArray<Phrase> Duty(Kit kit)
    {
        ArgumentNullException.ThrowIfNull(kit);
        var place = RuleBook.Of(kit.Fields.Text(FieldNames.Jurisdiction));
        if (place.RecordDuty(LawAndSubstance.WhoWorks(kit), null) is not { } line)
            return [];
        var rule = RuleWords.Plain(line);
        return
        [
            (line.Years, line.Asks.Contains(RecordItem.Bought)) switch
            {
                ({ } years, true) => Phrase.Many(
                    years,
                    $"Record, {place.Called}: {rule}; keep it {years} year; what was bought and sold is not in this "
                        + $"ledger, keep the bills.",
                    $"Record, {place.Called}: {rule}; keep it {years} years; what was bought and sold is not in this "
                        + $"ledger, keep the bills."
                ),
                ({ } years, false) => Phrase.Many(
                    years,
                    $"Record, {place.Called}: {rule}; keep it {years} year.",
                    $"Record, {place.Called}: {rule}; keep it {years} years."
                ),
                (null, true) => Phrase.Of(
                    $"Record, {place.Called}: {rule}; what was bought and sold is not in this ledger, keep the bills."
                ),
                _ => Phrase.Of($"Record, {place.Called}: {rule}."),
            },
        ];
    }

    [Said]
    private static string Label(RecordItem item) =>
        item switch
        {
            RecordItem.Date => "Date",
            RecordItem.Person => "Who did it",
            RecordItem.Certificate => "Certificate or licence, number and end",
            RecordItem.Car => "Car",
            RecordItem.Owner => "Owner, name and address",
            RecordItem.Refrigerant => "Refrigerant",
            RecordItem.Recovered => "Recovered",
            RecordItem.Charged => "Charged",
            RecordItem.LeakCheck => "Leak check",
            RecordItem.Cylinder => "Into which cylinder",
            RecordItem.WentTo => "Who received what was recovered, name and address",
            _ => "Bought and sold",
        };

    private static Phrase Value(RecordItem item, JobPicture picture, DateTimeOffset last)
    {
        var record = picture.Record;
        var recoveries = record.Journal.OfKind(EntryKinds.Recovery).ToArray();
        Phrase Written(string field, string? otherwise = null) =>
            recoveries.Select(entry => entry.Fields.Text(field)).OfType<string>().Distinct().ToArray()
                is { Length: > 0 } said
                ? Phrase.Verbatim(string.Join("; ", said))
                : Given(otherwise);
        return item switch
        {
            RecordItem.Date => Phrase.Verbatim(last.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)),
            RecordItem.Person => Given(record.Kit.Fields.Text(FieldNames.Owner)),
            RecordItem.Certificate => Written("certificate", record.Kit.Fields.Text(FieldNames.Qualification)),
            RecordItem.Car => Phrase.Verbatim(record.Car.Label),
            RecordItem.Refrigerant => Identification.Otherwise(record, []) is null
                ? Phrase.Verbatim(record.Car.Refrigerant)
                : Phrase.Words("mixed or unknown"),
            RecordItem.Recovered => recoveries.Length > 0
                ? Phrase.Of($"{Kilograms(picture.Mass.RecoveredKg)}")
                : Phrase.Words("nothing"),
            RecordItem.Charged => picture.Mass.DrawnKg > 0
                ? Phrase.Of($"{Kilograms(picture.Mass.SystemKg)}")
                : Phrase.Words("nothing"),
            RecordItem.LeakCheck => LastLook(record),
            RecordItem.Cylinder => Written("container"),
            RecordItem.WentTo => Written(FieldNames.WentTo) is { IsEmpty: false } received ? received
            : recoveries.Length == 0 ? Phrase.Words("nothing recovered")
            : Phrase.Empty,
            _ => Phrase.Empty,
        };
    }

    /// <summary>Nothing where nothing was written down: the card leaves a line for it.</summary>
    private static Phrase Given(string? text) => string.IsNullOrEmpty(text) ? Phrase.Empty : Phrase.Verbatim(text);

    /// <summary>The last look for a leak, at one spot or round the circuit.</summary>
    private static Phrase LastLook(JobRecord record)
    {
        if (
            record.Journal.Standing.LastOrDefault(one => one.Kind is EntryKinds.LeakCheck or EntryKinds.LeakSearch)
            is not { } look
        )
            return Phrase.Empty;
        var day = Phrase.Verbatim(look.ObservedAt.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture));
        var test = look.Says(FieldNames.Test);
        if (look.Kind == EntryKinds.LeakCheck)
        {
            var spot = SpotWords.Name(look.Fields.Text(FieldNames.Spot) ?? "");
            return Phrase.Of($"{day}, {spot}, {test}: {look.Says(FieldNames.Outcome)}");
        }
        return look.Fields.Text(FieldNames.Showed) is { } showed
            ? Phrase.Of($"{day}, round the circuit, {test}: it showed at {SpotWords.Names(FieldType.Spots.Of(showed))}")
            : Phrase.Of($"{day}, round the circuit, {test}: nothing");
    }
}
