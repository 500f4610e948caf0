using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Quantities;
using static Tightcold.Jobs.Fields.Field;

namespace Tightcold.Jobs.Kinds;

/// <summary>Oil out or in, measured.</summary>
internal sealed class OilMovedKind()
    : Kind(
        EntryKinds.OilMoved,
        "Oil drained or added",
        Choice(FieldNames.Direction, "Direction", true, Chosen.Added, "drained"),
        Of(FieldNames.Amount, "Amount", QuantityKind.LiquidVolume, 0.1e-6, 2e-3, required: true).Usually(2e-6, 300e-6),
        Text(FieldNames.OilType, "Oil type", 40, required: true).Suggests("PAG 46", "PAG 100", "POE"),
        Spot(FieldNames.Spot, "Where")
    )
{
    public override CircuitEffect Effect => CircuitEffect.MovesOil;
    public override ImmutableArray<(Step Step, int Rank)> Steps => [(Step.Mend, 2)];
}
