using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Quantities;
using static Tightcold.Jobs.Fields.Field;

namespace Tightcold.Jobs.Kinds;

/// <summary>A joint is open: air and water come in from now on.</summary>
internal sealed class OpenedKind()
    : Kind(
        EntryKinds.Opened,
        "Circuit opened to air",
        Spot(FieldNames.Spot, "Spot", required: true),
        Number(FieldNames.OpenEnds, "Open ends at once", 1, 8, hint: "capped ends count as closed")
    )
{
    public override CircuitEffect Effect => CircuitEffect.Opens;
    public override ImmutableArray<(Step Step, int Rank)> Steps => [(Step.Mend, 3)];

    public override Phrase Caution { get; } =
        Phrase.Words("Goggles on, and no pressure left in the system before a joint is loosened.");
}
