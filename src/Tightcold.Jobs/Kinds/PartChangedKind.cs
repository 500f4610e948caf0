using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Quantities;
using static Tightcold.Jobs.Fields.Field;

namespace Tightcold.Jobs.Kinds;

/// <summary>A new part, and the oil it brought.</summary>
internal sealed class PartChangedKind()
    : Kind(
        EntryKinds.PartChanged,
        "Part replaced",
        [
            .. Open(
                Spot(FieldNames.Spot, "Spot", required: true),
                Text(FieldNames.Part, "Part", 80, required: true)
                    .Suggests("receiver-drier", "condenser", "compressor", "hose", "expansion device", "evaporator")
            ),
            Of(FieldNames.OilInNewPart, "Oil it came filled with", QuantityKind.LiquidVolume, 0, 1e-3),
            Number(FieldNames.Price, "Price", 0, 100000),
            Text(FieldNames.Tightening, "Tightening done", 60, hint: "maker's figure rules"),
        ]
    )
{
    public override CircuitEffect Effect => CircuitEffect.Changes;
    public override ImmutableArray<(Step Step, int Rank)> Steps => [(Step.Mend, 0)];
}
