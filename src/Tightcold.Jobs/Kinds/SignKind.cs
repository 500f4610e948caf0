using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Quantities;
using static Tightcold.Jobs.Fields.Field;

namespace Tightcold.Jobs.Kinds;

/// <summary>One thing seen, felt, heard or tried at the car.</summary>
internal sealed class SignKind()
    : Kind(
        EntryKinds.Sign,
        "Seen, felt, heard or tried",
        Choice(FieldNames.Observation, "What", true, [.. SignWords.All])
    )
{
    public override CircuitEffect Effect => CircuitEffect.None;

    // What is wrong is judged from readings that are written down elsewhere, and from what was seen.
    public override ImmutableArray<(Step Step, int Rank)> Steps => [(Step.WhatIsWrong, 0)];

    public override Phrase Caution { get; } =
        Phrase.Words(
            "Keep hands, sleeves and hair away from belt and fan; thin pipes and heater hoses burn. "
                + "Bridge nothing at a plug, and leave the orange cables of an electric compressor alone."
        );
}
