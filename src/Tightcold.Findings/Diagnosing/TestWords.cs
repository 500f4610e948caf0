using Tightcold.Diagnosis.Measurement;
using Tightcold.Diagnosis.NextTest;
using Tightcold.Diagnosis.NextTest.Tests;
using Tightcold.Jobs.Entries;
using Tightcold.Picture.Machine;
using Tightcold.Quantities;

namespace Tightcold.Findings.Diagnosing;

/// <summary>Next tests in words: what to do, and what each outcome would mean.</summary>
public static class TestWords
{
    public static NextAction Action(TestValue test, double barometricPa)
    {
        ArgumentNullException.ThrowIfNull(test);
        return new(
            Phrase.Words(test.Kind.Name),
            Tells(test, barometricPa),
            (int)Math.Round(test.Minutes),
            test.Kind.Entry ?? (test.Kind.Looks is null ? EntryKinds.RunningReading : EntryKinds.Sign),
            test.Kind.TakesOut ? Doing.TakesOut
                : test.Kind.Runs ? Doing.RunsCompressor
                : Doing.Looks
        )
        {
            First = test.Kind.Looks is { } look ? SeenSigns.Group(look) : test.Kind.Begins,
            Known = test.Kind.Known,
        };
    }

    /// <summary>“high side near 14 bar: condenser short of air (then 90 %); near 19 bar: too much refrigerant (then 80
    /// %)”.</summary>
    private static Phrase Tells(TestValue test, double barometricPa)
    {
        var told = new List<Phrase>();
        foreach (var meaning in test.Meanings)
        {
            var name = FaultWords.Name(meaning.Hypothesis);
            var then = Measure.Ratio(Math.Clamp(meaning.OddsThen, 0.01, 0.99));
            told.Add(
                Expected(test.Kind, meaning, barometricPa) is { } expected
                    ? Phrase.Of($"{expected} if it is {name} (then about {then})")
                    : Phrase.Of($"{name}: about {then} if it is so")
            );
        }

        return told.Count == 0 ? Phrase.Words("which of the rest it is") : Phrase.Join("; ", told);
    }

    private static Phrase? Expected(TestKind kind, TestMeaning meaning, double barometricPa)
    {
        var (low, high) = (meaning.Expected.Low, meaning.Expected.High);
        if (high == 0)
            return null;
        return (kind.Shows, meaning.Channel) switch
        {
            (QuantityKind.Mass, _) => Phrase.Of($"{(Measure.Kilograms(low), Measure.Kilograms(high))}"),
            ({ }, _) => Phrase.Of(
                $"{(ReadingWords.Value(Channel.LowSide, low, barometricPa), ReadingWords.Value(Channel.LowSide, high, barometricPa))}"
            ),
            (_, { } channel) => Phrase.Of(
                $"{ReadingWords.Name(channel)} {(ReadingWords.Value(channel, low, barometricPa), ReadingWords.Value(channel, high, barometricPa))}"
            ),
            _ => null,
        };
    }
}
