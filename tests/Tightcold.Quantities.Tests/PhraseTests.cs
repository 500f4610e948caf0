using System.Globalization;
using CsCheck;

namespace Tightcold.Quantities.Tests;

public sealed class PhraseTests
{
    private static readonly Gen<Measure> AnyMeasure = Gen.Select(
        Gen.Enum<QuantityKind>(),
        Gen.Double[-1e6, 1e6],
        (kind, si) => new Measure(kind, si)
    );

    private static readonly Gen<Phrase> AnyPhrase = Gen.OneOf(
            Gen.String[Gen.Char['a', 'z'], 1, 8].Select(Phrase.Words),
            AnyMeasure.Select(one => Phrase.Of($"{one}")),
            Gen.Select(AnyMeasure, Gen.Double[0, 9])
                .Select((low, up) => Phrase.Of($"{(low, new Measure(low.Kind, low.Si + up))}"))
        )
        .Array[0, 5]
        .Select(parts => Phrase.FromParts(parts.SelectMany(part => part.Parts)));

    [Fact]
    public void Numbers_keep_their_kind_and_their_value_on_the_way_into_a_sentence() =>
        Gen.Select(AnyMeasure, AnyMeasure)
            .Sample(
                (first, second) =>
                {
                    var phrase = Phrase.Of($"from {first} it went to {second}.");
                    Assert.Equal([first, second], phrase.Parts.OfType<PhrasePart.One>().Select(part => part.Value));
                }
            );

    [Fact]
    public void A_quantity_in_a_sentence_is_its_measure()
    {
        var phrase = Phrase.Of($"{GaugePressure.FromPascals(2e5)} at {Temperature.FromCelsius(20)}, {3} cans");
        Assert.Equal(
            [
                new PhrasePart.One(new Measure(QuantityKind.GaugePressure, 2e5)),
                new PhrasePart.Words(" at "),
                new PhrasePart.One(new Measure(QuantityKind.Temperature, 293.15)),
                new PhrasePart.Words(", "),
                new PhrasePart.Words("3"),
                new PhrasePart.Words(" cans"),
            ],
            phrase.Parts
        );
        Assert.Equal("200000 GaugePressure at 293.15 Temperature, 3 cans", phrase.ToString());
    }

    [Fact]
    public void A_sentence_inside_a_sentence_brings_its_numbers_along() =>
        Gen.Select(AnyPhrase, AnyPhrase)
            .Sample(
                (a, b) =>
                {
                    Assert.Equal(a.Parts.Concat(b.Parts), Phrase.Of($"{a}{b}").Parts);
                    Assert.Equal($"{a}{b}", Phrase.Of($"{a}{b}").ToString());
                }
            );

    [Fact]
    public void One_after_the_other_has_one_space_between_and_nothing_adds_nothing() =>
        Gen.Select(AnyPhrase, AnyPhrase)
            .Sample(
                (a, b) =>
                {
                    Assert.Equal(a, a.Then(Phrase.Empty));
                    Assert.Equal(a, Phrase.Empty.Then(a));
                    if (!a.IsEmpty && !b.IsEmpty)
                        Assert.Equal($"{a} {b}", a.Then(b).ToString());
                }
            );

    [Fact]
    public void Sentences_of_the_same_parts_are_one_and_of_other_numbers_or_kinds_are_not() =>
        Gen.Select(AnyPhrase, AnyMeasure)
            .Sample(
                (phrase, measure) =>
                {
                    var same = Phrase.FromParts(phrase.Parts);
                    Assert.Equal(phrase, same);
                    Assert.Equal(phrase.GetHashCode(), same.GetHashCode());
                    var other = new Measure(
                        measure.Kind == QuantityKind.Mass ? QuantityKind.Number : QuantityKind.Mass,
                        measure.Si
                    );
                    Assert.NotEqual(Phrase.Of($"{phrase}{measure}"), Phrase.Of($"{phrase}{other}"));
                    Assert.NotEqual(Phrase.Of($"{measure}"), Phrase.Of($"{new Measure(measure.Kind, measure.Si + 1)}"));
                }
            );

    [Fact]
    public void A_range_is_of_one_kind() =>
        Assert.Throws<ArgumentException>(() => Phrase.Of($"{(Measure.Kelvins(1), Measure.Kilograms(2))}"));

    [Fact]
    public void No_number_is_no_measure() =>
        Assert.All([double.NaN, double.PositiveInfinity], si =>
            Assert.Throws<ArgumentOutOfRangeException>(() => Measure.Number(si))
        );

    [Fact]
    public void The_readers_format_is_asked_for_every_number_and_the_machines_culture_never()
    {
        var before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");
            var phrase = Phrase.Of($"{Measure.Kilograms(0.5)}, {(Measure.Kelvins(1.5), Measure.Kelvins(2.5))}, {1234}");
            Assert.Equal("0.5 Mass, 1.5 to 2.5 TemperatureDifference, 1234", phrase.ToString());
            Assert.Equal("<0.5>, <1.5|2.5>, 1234", phrase.Render(new Marked()));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    private sealed class Marked : IMeasureFormat
    {
        public string Format(Measure value) => string.Create(CultureInfo.InvariantCulture, $"<{value.Si}>");

        public string Format(Measure low, Measure high) =>
            string.Create(CultureInfo.InvariantCulture, $"<{low.Si}|{high.Si}>");
    }
}
