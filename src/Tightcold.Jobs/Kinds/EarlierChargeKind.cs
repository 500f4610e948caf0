using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using static Tightcold.Jobs.Fields.Field;

namespace Tightcold.Jobs.Kinds;

/// <summary>When it was last filled, and how: how fast it leaks.</summary>
internal sealed class EarlierChargeKind()
    : Kind(
        EntryKinds.EarlierCharge,
        "Earlier charge or top-up",
        Number(
            FieldNames.MonthsAgo,
            "How many months ago",
            0,
            600,
            required: true,
            hint: "as well as anybody remembers"
        ),
        Choice(FieldNames.Filled, "Filled", true, Chosen.FullByWeight, "full, not weighed", Chosen.ToppedUp),
        Mass(FieldNames.Mass, "How much went in", 0.01, 5, hint: "for a top-up")
    )
{
    public override CircuitEffect Effect => CircuitEffect.None;
    public override ImmutableArray<(Step Step, int Rank)> Steps => [(Step.LeakSearch, 2)];
}
