using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using static Tightcold.Jobs.Fields.Field;

namespace Tightcold.Jobs.Kinds;

/// <summary>What the driver tells: it says which faults are likely before anything was read.</summary>
internal sealed class StoryKind()
    : Kind(EntryKinds.Story, "The story", Choice(FieldNames.Told, "Why it is here", true, [.. StoryWords.All]))
{
    public override CircuitEffect Effect => CircuitEffect.None;
    public override ImmutableArray<(Step Step, int Rank)> Steps => [(Step.ComplaintAndWeather, 1)];
}
