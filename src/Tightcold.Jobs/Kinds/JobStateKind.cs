using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using static Tightcold.Jobs.Fields.Field;

namespace Tightcold.Jobs.Kinds;

/// <summary>The job is open, waits, or is closed.</summary>
internal sealed class JobStateKind()
    : Kind(
        EntryKinds.JobState,
        "State of the job",
        Choice(FieldNames.State, "State", true, Chosen.Open, Chosen.Waiting, Chosen.Closed),
        Text(FieldNames.WaitingFor, "Waiting for", 80).Suggests("a part", "the driver", "a recovery", "dry weather"),
        Number(FieldNames.LookAgainIn, "Look again in so many days", 1, 3660, hint: "the standing pressure tells then")
    )
{
    public override CircuitEffect Effect => CircuitEffect.ClosesJob;
    public override ImmutableArray<(Step Step, int Rank)> Steps => [(Step.Ledger, 1)];
    public override int? Anywhere => 2;
}
