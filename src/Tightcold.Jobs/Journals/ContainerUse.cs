using System.Collections.Immutable;

namespace Tightcold.Jobs.Journals;

/// <summary>What another job of this workshop wrote down of cans and cylinders: scale readings, valves,
/// recoveries.</summary>
/// <param name="Job">Number of the job.</param>
/// <param name="Journal">Of these entries alone, with what corrects and strikes them.</param>
public sealed record ContainerUse(int Job, Journal Journal)
{
    /// <summary>Kinds of entry that move refrigerant in a container.</summary>
    public static readonly ImmutableArray<string> Kinds =
    [
        Entries.EntryKinds.ScaleReading,
        Entries.EntryKinds.ContainerMoved,
        Entries.EntryKinds.Recovery,
        Entries.EntryKinds.Struck,
    ];
}
