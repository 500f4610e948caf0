using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Picture;
using Tightcold.Picture.Circuit;
using Tightcold.Quantities;

namespace Tightcold.Findings.Steps;

/// <summary>Readings that cannot be, in words: named, and never explained away.</summary>
internal static class DoubtWords
{
    public static Phrase Of(Entry entry, Doubt doubt)
    {
        var pressures = Pressures(entry);
        return doubt switch
        {
            Doubt.ChangedOver => Phrase.Of(
                $"{pressures} cannot be: the low side stands above the high side. Hoses changed over, or a gauge off."
            ),
            _ => Phrase.Of(
                $"{pressures} cannot be: nothing that fits this car stands so high. A unit, a digit or a gauge is "
                    + $"wrong."
            ),
        };
    }

    public static Finding Finding(Step step, [Said] string title, JobPicture picture, Entry entry, Doubt doubt) =>
        new(step, title, Certainty.Weak, Judgement.CannotTell, Of(entry, doubt))
        {
            Why = Phrase.Words("Nothing else is judged from this reading."),
            RestsOn = [entry.Id],
            Next = [Again(entry.Kind)],
        };

    public static NextAction Again(string kind) =>
        new(
            Phrase.Words("Read both gauges again: vented to zero first, blue hose on the low side, units checked"),
            Phrase.Words("whether the odd reading stands"),
            5,
            kind
        );

    private static Phrase Pressures(Entry entry)
    {
        var (low, high) = (
            entry.Fields.Get<GaugePressure>(FieldNames.LowSide),
            entry.Fields.Get<GaugePressure>(FieldNames.HighSide)
        );
        return low is { } l && high is { } h ? Phrase.Of($"Low side {l} and high side {h}")
            : low is { } one ? Phrase.Of($"Low side {one}")
            : high is { } other ? Phrase.Of($"High side {other}")
            : Phrase.Words("This reading");
    }
}
