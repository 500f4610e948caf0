using Tightcold.Jobs.Entries;

namespace Tightcold.Jobs.Kinds;

/// <summary>Strikes another entry without replacing it.</summary>
internal sealed class StruckKind() : Kind(EntryKinds.Struck, "Entry struck")
{
    public override CircuitEffect Effect => CircuitEffect.None;
}
