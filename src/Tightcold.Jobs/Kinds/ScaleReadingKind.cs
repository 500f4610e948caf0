using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using static Tightcold.Jobs.Fields.Field;

namespace Tightcold.Jobs.Kinds;

/// <summary>What the scale shows, with the container on it.</summary>
internal sealed class ScaleReadingKind()
    : Kind(
        EntryKinds.ScaleReading,
        "Scale reading",
        [
            .. Open(
                Container(FieldNames.Container, "What stands on the scale", required: true).Kept(),
                Mass(FieldNames.Gross, "Scale shows", 0.001, 120, required: true)
            ),
            Temperature(FieldNames.ContainerTemperature, "Container").UsuallyCelsius(-30, 48),
        ]
    )
{
    public override CircuitEffect Effect => CircuitEffect.Weighs;
    public override ImmutableArray<(Step Step, int Rank)> Steps => [(Step.WeighIn, 0), (Step.Ledger, 0)];
}
