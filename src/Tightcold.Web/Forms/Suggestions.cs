using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Jobs.Journals;

namespace Tightcold.Web.Forms;

/// <summary>Words that a text field is usually filled with, so that a gloved finger taps instead of typing; anything
/// else can be typed. What this job said before comes first.</summary>
internal static class Suggestions
{
    private const int Most = 6;

    private static readonly Dictionary<(string Kind, string Field), string[]> Usual = new()
    {
        [(EntryKinds.SealChanged, "seal")] = ["HNBR O-ring, oiled", "valve core and cap", "sealing washer", "gasket"],
        [(EntryKinds.PartChanged, "part")] =
        [
            "receiver-drier",
            "condenser",
            "compressor",
            "hose",
            "expansion device",
            "evaporator",
        ],
        [(EntryKinds.OilMoved, "oil-type")] = ["PAG 46", "PAG 100", "POE"],
        [(EntryKinds.Purge, "hose")] = ["yellow service hose", "all hoses"],
        [(EntryKinds.JobState, "waiting-for")] = ["a part", "the driver", "a recovery", "dry weather"],
        [(EntryKinds.VacuumReading, "measured-at")] = ["far port", "at the pump"],
    };

    public static ImmutableDictionary<string, ImmutableArray<string>> Of(JobRecord record, Schema schema)
    {
        var words = ImmutableDictionary.CreateBuilder<string, ImmutableArray<string>>();
        foreach (var field in schema.Fields)
            if (Usual.TryGetValue((schema.Name, field.Name), out var usual))
                words[field.Name] =
                [
                    .. record
                        .Journal.OfKind(schema.Name)
                        .Select(entry => entry.Fields.Text(field.Name))
                        .OfType<string>()
                        .Reverse()
                        .Concat(usual)
                        .Distinct(StringComparer.OrdinalIgnoreCase)
                        .Take(Most),
                ];
        return words.ToImmutable();
    }
}
