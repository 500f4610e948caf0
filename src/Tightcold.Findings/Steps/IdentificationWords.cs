using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Procedures.Standing;
using Tightcold.Procedures.Substances;
using Tightcold.Quantities;
using static Tightcold.Picture.Pressures.Evidence;

namespace Tightcold.Findings.Steps;

/// <summary>A refrigerant that is not the label's, in words.</summary>
internal static class IdentificationWords
{
    /// <summary>What to do.</summary>
    public static NextAction Recover { get; } =
        new(
            Phrase.Words(
                "Have it recovered as contaminated, into a cylinder of its own that is marked so, by who may: check "
                    + "local rules"
            ),
            Phrase.Words(
                "what came out, for reclaim or destruction; then evacuate, weigh in the label's refrigerant and read "
                    + "again"
            ),
            45,
            EntryKinds.Recovery,
            Doing.TakesOut
        );

    /// <summary>What can hurt.</summary>
    public static Caution Caution { get; } =
        new(
            "identify",
            Danger.Life,
            Phrase.Words(
                "What is mixed or unknown may burn and may stand at any pressure: no flame, good air, and nothing of "
                    + "it into a clean cylinder, a shared machine or another car."
            ),
            "common practice"
        );

    /// <summary>The test that tells, where only gauges have spoken.</summary>
    public static NextAction Identify { get; } =
        new(
            Phrase.Words(
                "Put a refrigerant identifier on the low-side port before any hose of yours, and write down what it "
                    + "says"
            ),
            Phrase.Words("what is in it; no gauge tells a wrong or mixed refrigerant"),
            10,
            EntryKinds.StandingReading
        );

    /// <summary>“Cannot rule out” and never “is”: a gauge does not know what it stands on.</summary>
    public static IEnumerable<Caution> WrongRefrigerant(ImmutableArray<OtherRefrigerant> mayBe)
    {
        if (mayBe.IsEmpty)
            yield break;
        var others = Phrase.Join(", ", mayBe.Select(Named));
        yield return new(
            "may-be-another",
            Danger.Life,
            Phrase.Of(
                $"Wrong or mixed refrigerant cannot be ruled out: with liquid inside it would stand where this car "
                    + $"stands if it held {others}. A refrigerant identifier tells, gauges do not; until then nothing "
                    + $"of it goes into a clean cylinder."
            ),
            ""
        );
    }

    private static Phrase Named(OtherRefrigerant other) =>
        Phrase.Of($"{Phrase.Verbatim(other.Fluid.DisplayName)} ({Absolute(other.SaturationPa)})");
}
