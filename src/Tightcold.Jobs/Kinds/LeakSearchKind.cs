using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.LeakTests;
using static Tightcold.Jobs.Fields.Field;

namespace Tightcold.Jobs.Kinds;

/// <summary>One test taken round the whole circuit, told by where it showed and where it did not reach.</summary>
internal sealed class LeakSearchKind()
    : Kind(
        EntryKinds.LeakSearch,
        "Search round the whole circuit",
        [
            .. Open(
                Choice(
                        FieldNames.Test,
                        "Test",
                        true,
                        [.. LeakTestKind.All.Where(test => test.RoundTheCircuit).Select(LeakCheckKind.LeakTest)]
                    )
                    .Kept(),
                Spots(FieldNames.Showed, "It showed at", hint: "at every other spot it showed nothing"),
                Spots(FieldNames.NotReached, "Could not be reached").Kept()
            ),
            Gauge(FieldNames.SystemPressure, "Pressure in the system then", hint: "empty: as it was last read")
                .UsuallyBar(0, 16),
            Minutes(FieldNames.TimeSpent, "Time for all of it", 24 * 60),
            Choice(FieldNames.Wind, "Wind", false, "still", Chosen.Breeze, Chosen.Windy).Kept(),
            Choice(FieldNames.OldDye, "Old dye glowing", false, Chosen.Yes, "no").Kept(),
        ]
    )
{
    public override CircuitEffect Effect => CircuitEffect.None;
    public override ImmutableArray<(Step Step, int Rank)> Steps => [(Step.LeakSearch, 1)];
}
