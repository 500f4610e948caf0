using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;
using Tightcold.Quantities;

namespace Tightcold.Jobs.Kinds;

/// <summary>What a refrigerant identifier said of the car.</summary>
internal static class Identifier
{
    /// <summary>What it last said against the label, of what has been in the car since the vacuum pump last ran; null
    /// when it said nothing, or nothing else than the label.</summary>
    public static Phrase? SaidOtherwise(JobRecord record, Entry now)
    {
        var before = record
            .Journal.Standing.Where(entry => entry.ObservedAt <= now.ObservedAt)
            .Reverse()
            .TakeWhile(entry => entry.Kind != EntryKinds.Pump);
        var said = before
            .Where(entry => entry.Kind == EntryKinds.StandingReading)
            .Select(entry => entry.Fields.Text(FieldNames.Identified))
            .FirstOrDefault(word => word is not null);
        return said is null or Chosen.AsLabelled ? null : Phrase.Words(said, FieldNames.Identified);
    }
}
