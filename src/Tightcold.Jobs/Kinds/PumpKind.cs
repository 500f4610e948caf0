using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using static Tightcold.Jobs.Fields.Field;

namespace Tightcold.Jobs.Kinds;

/// <summary>The vacuum pump starts, or stops.</summary>
internal sealed class PumpKind()
    : Kind(
        EntryKinds.Pump,
        "Vacuum pump",
        Choice(FieldNames.Action, "Pump", true, Chosen.Started, "stopped"),
        Choice(FieldNames.Sides, "Pulled on", false, "both sides", "low side only", "high side only"),
        Choice(FieldNames.Cores, "Valve cores", false, "in", Chosen.Removed)
    )
{
    public override CircuitEffect Effect => CircuitEffect.Pumps;
    public override ImmutableArray<(Step Step, int Rank)> Steps => [(Step.PumpDown, 0)];
}
