using System.Collections.Immutable;
using Tightcold.Diagnosis.Measurement;
using Tightcold.Diagnosis.Priors;
using Tightcold.Jobs.Entries;
using Tightcold.Picture.Machine;
using Tightcold.Procedures.Substances;
using Tightcold.Quantities;

namespace Tightcold.Findings.Diagnosing;

/// <summary>Explanations in the words of their faults.</summary>
public static class FaultWords
{
    public static Phrase Name(Hypothesis hypothesis)
    {
        ArgumentNullException.ThrowIfNull(hypothesis);
        return hypothesis.IsNothingWrong ? Phrase.Words("nothing wrong")
            : hypothesis.IsNoneOfThese ? Phrase.Words("none of these faults")
            : Phrase.Join(" with ", hypothesis.Faults.Select(fault => Phrase.Words(fault.Name)));
    }

    /// <summary>What to do when this is it.</summary>
    /// <param name="seen">What was looked at already: then the next thing, not the same again.</param>
    public static NextAction Mend(Hypothesis hypothesis, ImmutableArray<Sign> seen)
    {
        ArgumentNullException.ThrowIfNull(hypothesis);
        if (hypothesis.Faults.IsEmpty)
            return new(
                Phrase.Words("Leave the circuit shut; look again on a hotter day and after a long drive"),
                Phrase.Words("whether the complaint comes back under load"),
                15,
                EntryKinds.VentReading
            );
        var mend = hypothesis.Faults[0].Mend;
        var group = mend.Look is { } look ? SeenSigns.Group(look) : null;
        return group is not null && seen.Any(sign => SeenSigns.Group(sign) == group)
            ? new(
                Phrase.Words(mend.Then),
                Phrase.Words("whether it cools as it should"),
                30,
                mend.Opens ? EntryKinds.Recovery : EntryKinds.RunningReading,
                mend.Opens ? Doing.TakesOut : Doing.Looks
            )
            : new(Phrase.Words(mend.What), Phrase.Words(mend.Tells), mend.Minutes, mend.Entry) { First = group };
    }

    /// <summary>What can hurt in acting on it.</summary>
    public static IEnumerable<Caution> Cautions(Hypothesis hypothesis)
    {
        ArgumentNullException.ThrowIfNull(hypothesis);
        return hypothesis
            .Faults.Where(fault => fault.Caution.Length > 0)
            .Select(fault => new Caution(
                "fault: " + fault.Caution,
                fault.Danger,
                Phrase.Words(fault.Caution),
                "common practice"
            ));
    }
}
