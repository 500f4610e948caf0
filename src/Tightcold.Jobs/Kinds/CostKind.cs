using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using static Tightcold.Jobs.Fields.Field;

namespace Tightcold.Jobs.Kinds;

/// <summary>Money and time spent.</summary>
internal sealed class CostKind()
    : Kind(
        EntryKinds.Cost,
        "Cost",
        Text(FieldNames.What, "What for", 80, required: true),
        Number(FieldNames.Amount, "Sum", 0, 1e6, required: true),
        Text(FieldNames.Currency, "Currency", 8).Kept(),
        Unread(Choice(FieldNames.Sort, "Sort", false, "part", "consumable", "time", "other")),
        Minutes(FieldNames.TimeSpent, "Time spent", 30 * 24 * 60)
    )
{
    public override CircuitEffect Effect => CircuitEffect.None;
    public override int? Anywhere => 1;
}
