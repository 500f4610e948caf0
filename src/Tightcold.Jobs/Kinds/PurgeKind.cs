using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Quantities;
using static Tightcold.Jobs.Fields.Field;

namespace Tightcold.Jobs.Kinds;

/// <summary>Air put out of a hose before it gives, and what it cost.</summary>
internal sealed class PurgeKind()
    : Kind(
        EntryKinds.Purge,
        "Hose purged",
        Text(FieldNames.Hose, "Hose", 40, required: true).Suggests("yellow service hose", "all hoses"),
        Choice(FieldNames.Method, "How", false, "evacuated with the system", "short burst of gas", "not purged"),
        Mass(FieldNames.EstimatedLoss, "Estimated loss", 0, 0.2)
    )
{
    public override CircuitEffect Effect => CircuitEffect.None;
    public override ImmutableArray<(Step Step, int Rank)> Steps => [(Step.WeighIn, 2)];

    public override Phrase Caution { get; } =
        Phrase.Words("Point the hose end away from face and flame, and let out no more than fills the hose.");
}
