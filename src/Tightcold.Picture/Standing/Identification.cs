using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Journals;
using Tightcold.Quantities;

namespace Tightcold.Picture.Standing;

/// <summary>An identifier that read something else than the label's refrigerant.</summary>
/// <param name="Entry">Where it is written.</param>
public sealed record Identification(Entry Entry)
{
    private const string Field = "identified";

    /// <summary>What stands against the label for the refrigerant that was in the car at the time of some readings;
    /// null while nothing does. A vacuum pump ends it: what is weighed in after is another filling. The last word
    /// counts.</summary>
    /// <param name="readings">Entries; without any, what is in the car at the end of the journal.</param>
    public static Identification? Otherwise(JobRecord record, IEnumerable<Guid> readings)
    {
        ArgumentNullException.ThrowIfNull(record);
        var standing = record.Journal.Standing;
        var ids = readings.ToHashSet();
        var last = standing.Length - 1;
        while (last >= 0 && ids.Count > 0 && !ids.Contains(standing[last].Id))
            last--;
        if (last < 0)
            return null;
        var from = last;
        while (from > 0 && standing[from].Kind != EntryKinds.Pump)
            from--;
        var word = standing
            .Skip(from)
            .TakeWhile((entry, i) => from + i <= last || entry.Kind != EntryKinds.Pump)
            .LastOrDefault(entry =>
                entry.Fields.Text(Field) is "as labelled" or "another refrigerant" or "mixed or unknown"
            );
        return word is null || word.Fields.Text(Field) == "as labelled" ? null : new(word);
    }

    /// <summary>“another refrigerant”, or “mixed or unknown”.</summary>
    public string Word => Entry.Fields.Text(Field)!;

    /// <summary>The same for a person to read.</summary>
    public Phrase Says => Entry.Says(Field);
}
