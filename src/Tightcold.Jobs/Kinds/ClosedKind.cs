using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using static Tightcold.Jobs.Fields.Field;

namespace Tightcold.Jobs.Kinds;

/// <summary>A joint is shut again.</summary>
internal sealed class ClosedKind()
    : Kind(EntryKinds.Closed, "Circuit closed", Spot(FieldNames.Spot, "Spot", required: true))
{
    public override CircuitEffect Effect => CircuitEffect.Closes;
    public override ImmutableArray<(Step Step, int Rank)> Steps => [(Step.Mend, 4)];
}
