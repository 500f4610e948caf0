using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using static Tightcold.Jobs.Fields.Field;

namespace Tightcold.Jobs.Kinds;

/// <summary>How long the repair should last: what “proven tight” means in this job.</summary>
internal sealed class AimKind()
    : Kind(
        EntryKinds.Aim,
        "What is asked for",
        Number(FieldNames.CoolsFor, "It should still cool for so many years", 0.25, 10, required: true)
    )
{
    public override CircuitEffect Effect => CircuitEffect.None;
    public override ImmutableArray<(Step Step, int Rank)> Steps => [(Step.ComplaintAndWeather, 2)];
}
