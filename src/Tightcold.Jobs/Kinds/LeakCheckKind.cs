using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.LeakTests;
using static Tightcold.Jobs.Fields.Field;

namespace Tightcold.Jobs.Kinds;

/// <summary>One spot, looked at by one test.</summary>
internal sealed class LeakCheckKind()
    : Kind(
        EntryKinds.LeakCheck,
        "Leak check",
        [
            .. Open(
                Spot(FieldNames.Spot, "Spot", required: true),
                Choice(FieldNames.Test, "Test", true, [.. LeakTestKind.All.Select(LeakTest)]).Kept(),
                // Seen anew each time: never carried over.
                Choice(FieldNames.Outcome, "Outcome", true, "nothing", Chosen.Trace, Chosen.ClearLeak)
            ),
            Gauge(FieldNames.SystemPressure, "Pressure in the system then").UsuallyBar(0, 16),
            Minutes(FieldNames.TimeSpent, "Time spent", 24 * 60).Usually(5, 2 * 3600),
            Unread(Text(FieldNames.DetectorSetting, "Detector setting", 40)),
            Choice(FieldNames.Wind, "Wind", false, "still", Chosen.Breeze, Chosen.Windy).Kept(),
            Choice(FieldNames.OldDye, "Old dye glowing", false, Chosen.Yes, "no").Kept(),
        ]
    )
{
    public override CircuitEffect Effect => CircuitEffect.None;
    public override ImmutableArray<(Step Step, int Rank)> Steps => [(Step.LeakSearch, 0)];

    internal static FieldType.Option LeakTest(LeakTestKind test) => (test.Key, test.Button);
}
