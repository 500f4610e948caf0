using System.Collections.Immutable;
using System.Globalization;
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
    string ReadOn,
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
            Phrase.Words($"{place.Name}: {RuleWords.Plain(line)}."),
            RuleWords.ReadOn(line),
            [.. line.Asks.Select(item => (Label(item), Value(item, picture, last)))],
            line.Years is { } years ? last.AddYears(years) : null
        );
    }

    /// <summary>What the place of the kit asks to keep, for the ledger; empty where nothing is asked, as far as
    /// known.</summary>
    public static ImmutableArray<string> Duty(Kit kit)
    {
        ArgumentNullException.ThrowIfNull(kit);
        var place = RuleBook.Of(kit.Fields.Text(FieldNames.Jurisdiction));
        return place.RecordDuty(LawAndSubstance.WhoWorks(kit), null) is { } line
            ?
            [
                $"Record, {place.Name}: {RuleWords.Plain(line)}"
                    + (line.Years is { } years ? $"; keep it {years.ToString(CultureInfo.InvariantCulture)} years" : "")
                    + (
                        line.Asks.Contains(RecordItem.Bought)
                            ? "; what was bought and sold is not in this ledger, keep the bills."
                            : "."
                    ),
            ]
            : [];
    }

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
        Phrase Said(string field, string? otherwise = null) =>
            recoveries.Select(entry => entry.Fields.Text(field)).OfType<string>().Distinct().ToArray()
                is { Length: > 0 } said
                ? Phrase.Words(string.Join("; ", said))
                : Given(otherwise);
        return item switch
        {
            RecordItem.Date => Phrase.Words(last.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)),
            RecordItem.Person => Given(record.Kit.Fields.Text(FieldNames.Owner)),
            RecordItem.Certificate => Said("certificate", record.Kit.Fields.Text(FieldNames.Qualification)),
            RecordItem.Car => Phrase.Words(record.Car.Label),
            RecordItem.Refrigerant => Phrase.Words(
                Identification.Otherwise(record, []) is null ? record.Car.Refrigerant : "mixed or unknown"
            ),
            RecordItem.Recovered => recoveries.Length > 0
                ? Phrase.Of($"{Kilograms(picture.Mass.RecoveredKg)}")
                : Phrase.Words("nothing"),
            RecordItem.Charged => picture.Mass.DrawnKg > 0
                ? Phrase.Of($"{Kilograms(picture.Mass.SystemKg)}")
                : Phrase.Words("nothing"),
            RecordItem.LeakCheck => LastLook(record),
            RecordItem.Cylinder => Said("container"),
            RecordItem.WentTo => Said(FieldNames.WentTo, recoveries.Length == 0 ? "nothing recovered" : null),
            _ => Phrase.Empty,
        };
    }

    /// <summary>Nothing where nothing was written down: the card leaves a line for it.</summary>
    private static Phrase Given(string? text) => string.IsNullOrEmpty(text) ? Phrase.Empty : Phrase.Words(text);

    /// <summary>The last look for a leak, at one spot or round the circuit.</summary>
    private static Phrase LastLook(JobRecord record)
    {
        if (
            record.Journal.Standing.LastOrDefault(one => one.Kind is EntryKinds.LeakCheck or EntryKinds.LeakSearch)
            is not { } look
        )
            return Phrase.Empty;
        var (where, outcome) =
            look.Kind == EntryKinds.LeakCheck
                ? (look.Fields.Text(FieldNames.Spot), look.Reads(FieldNames.Outcome))
                : (
                    "round the circuit",
                    look.Fields.Text(FieldNames.Showed) is { } showed ? $"it showed at {showed}" : "nothing"
                );
        return Phrase.Words(
            $"{look.ObservedAt.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)}, {where}, "
                + $"{look.Reads(FieldNames.Test)}: {outcome}"
        );
    }
}
