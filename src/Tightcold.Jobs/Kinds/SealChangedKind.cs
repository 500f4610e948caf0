using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using static Tightcold.Jobs.Fields.Field;

namespace Tightcold.Jobs.Kinds;

/// <summary>A new seal at a joint.</summary>
internal sealed class SealChangedKind()
    : Kind(
        EntryKinds.SealChanged,
        "Seal replaced",
        [
            .. Open(
                Spot(FieldNames.Spot, "Spot", required: true),
                Text(FieldNames.Seal, "Seal", 80, required: true, hint: "e.g. HNBR O-ring, oiled")
                    .Suggests("HNBR O-ring, oiled", "valve core and cap", "sealing washer", "gasket")
            ),
            Number(FieldNames.Price, "Price", 0, 100000),
            Text(FieldNames.Tightening, "Tightening done", 60, hint: "maker's figure rules"),
        ]
    )
{
    public override CircuitEffect Effect => CircuitEffect.Changes;
    public override ImmutableArray<(Step Step, int Rank)> Steps => [(Step.Mend, 1)];
}
