using Tightcold.Diagnosis.Faults;
using Tightcold.Diagnosis.Inference;
using Tightcold.Diagnosis.Leaks;
using Tightcold.Diagnosis.Measurement;
using Tightcold.Diagnosis.Priors;

namespace Tightcold.Diagnosis.Tests.Odds;

/// <summary>What is known of the last filling moves the odds, and no further than a history may.</summary>
public sealed class HistoryTests
{
    private const double Month = LeakForecast.Year / 12;
    private const double LabelKg = 0.55;

    private static ChargeHistory Filled(FilledHow how, double months, bool remembered = false) =>
        new(how, months * Month, remembered ? 0.3 : 0, remembered);

    private static ChargeByHistory By(ChargeHistory history) => ChargeByHistory.Of(history, LabelKg);

    private static double Mean(ChargeByHistory history, double from, double to) =>
        Enumerable.Range(0, 200).Average(i => history.Factor(from + ((to - from) * (i + 0.5) / 200)));

    /// <summary>How a history moves “too little” against an ordinary charge, before any reading.</summary>
    private static double Short(ChargeHistory history) => Mean(By(history), 0.05, 0.80) / Mean(By(history), 0.80, 1.12);

    [Theory]
    [InlineData(FilledHow.ByWeight)]
    [InlineData(FilledHow.NotWeighed)]
    [InlineData(FilledHow.ToppedUp)]
    public void The_longer_ago_the_filling_the_likelier_too_little(FilledHow how)
    {
        double[] ages = [0.5, 1, 2, 4, 8, 16, 32, 64, 120];
        var odds = ages.Select(months => Short(Filled(how, months))).ToArray();
        Assert.Equal(odds.Order(), odds);
        var left = ages.Select(months => By(Filled(how, months)).Expected.Median).ToArray();
        Assert.Equal(left.OrderDescending(), left);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(12)]
    [InlineData(48)]
    public void What_was_weighed_in_and_proven_tight_is_the_least_likely_to_be_short_and_a_top_up_the_most(
        double months
    )
    {
        var weighed = Filled(FilledHow.ByWeight, months);
        Assert.True(Short(weighed with { ProvenTight = true }) <= Short(weighed));
        Assert.True(Short(weighed) < Short(Filled(FilledHow.NotWeighed, months)));
        Assert.True(Short(Filled(FilledHow.NotWeighed, months)) < Short(Filled(FilledHow.ToppedUp, months)));
    }

    [Fact]
    public void A_car_that_lost_much_before_is_likelier_short_again_and_the_more_it_lost_the_likelier()
    {
        var filled = Filled(FilledHow.ByWeight, 12);
        ChargeHistory Lost(double kilograms) =>
            filled with
            {
                LostBefore = new(kilograms, 0.03, 12 * Month, 0, LossObservation.YearDuty, false),
            };
        Assert.True(Short(Lost(0.01)) < Short(filled));
        Assert.True(Short(filled) < Short(Lost(0.15)));
        Assert.True(Short(Lost(0.15)) < Short(Lost(0.35)));
    }

    [Fact]
    public void A_charge_that_the_scale_left_short_is_expected_short()
    {
        var half = By(Filled(FilledHow.ByWeight, 1) with { Left = (0.5, 0.03) });
        Assert.InRange(half.Expected.Median, 0.45, 0.52);
        Assert.True(half.Factor(0.5) > half.Factor(0.95));
    }

    /// <summary>A tenth (written) or 15 % (remembered) of histories are not this car's: none forbids a charge, none
    /// triples it.</summary>
    [Theory]
    [InlineData(false, ChargeByHistory.WrongWritten)]
    [InlineData(true, ChargeByHistory.WrongRemembered)]
    public void No_history_says_more_than_it_may(bool remembered, double least)
    {
        foreach (var how in Enum.GetValues<FilledHow>())
        {
            foreach (var months in new[] { 0.1, 1, 10, 100, 600 })
            {
                var by = By(Filled(how, months, remembered) with { ProvenTight = true });
                for (var share = 0.0; share <= 2; share += 0.01)
                    Assert.InRange(by.Factor(share), least, 3);
            }
        }
    }

    /// <summary>Over all fillings and years that the model thinks of, the factors average to about one: a history that
    /// says nothing changes nothing.</summary>
    [Fact]
    public void A_filling_of_an_ordinary_age_leaves_the_odds_about_where_they_were() =>
        Assert.InRange(Short(new(FilledHow.ByWeight, 30 * Month, 0.8, true)), 0.6, 1.4);

    [Fact]
    public void Without_a_history_the_answer_is_the_same_to_the_bit_and_with_one_the_odds_move()
    {
        var evidence = ACase.Of(ACase.Point().Gauges(1.3, 11).At(Channel.Vent, 16));
        var without = Diagnoser.Diagnose(evidence, Effort.Quick, 5);
        var again = Diagnoser.Diagnose(evidence with { History = null }, Effort.Quick, 5);
        Assert.Equal(
            without.Beliefs.Select(belief => (belief.Hypothesis.Key, belief.Odds)),
            again.Beliefs.Select(belief => (belief.Hypothesis.Key, belief.Odds))
        );
        Assert.Null(without.ChargeShareByHistory);
        Assert.DoesNotContain(without.Beliefs.SelectMany(belief => belief.Reasons), reason => reason.IsHistory);

        var full = Diagnoser.Diagnose(
            evidence with
            {
                History = Filled(FilledHow.ByWeight, 1) with { ProvenTight = true },
            },
            Effort.Quick,
            5
        );
        var topped = Diagnoser.Diagnose(
            evidence with
            {
                History = Filled(FilledHow.ToppedUp, 2, true),
            },
            Effort.Quick,
            5
        );
        Assert.True(
            Undercharged(full) < Undercharged(without) && Undercharged(without) < Undercharged(topped),
            $"{Undercharged(full)} {Undercharged(without)} {Undercharged(topped)}"
        );
        Assert.Contains(full.Beliefs.Single(belief => belief.Hypothesis.Key == "undercharge").Reasons, reason =>
            reason.IsHistory && reason.Weight < 0
        );
        Assert.Contains(topped.Beliefs.Single(belief => belief.Hypothesis.Key == "undercharge").Reasons, reason =>
            reason.IsHistory && reason.Weight > 0
        );
        // What the readings alone say is told beside it, and is what the weighing without a history finds, as near as
        // two first pictures agree.
        double Alone(FaultOdds answer) =>
            answer
                .Beliefs.Where(belief => belief.Hypothesis.Has(Fault.Undercharge))
                .Sum(belief => belief.OddsWithoutHistory);
        Assert.Equal(1, topped.Beliefs.Sum(belief => belief.OddsWithoutHistory), 9);
        Assert.InRange(Alone(topped), Undercharged(without) - 0.12, Undercharged(without) + 0.12);
        Assert.InRange(Alone(full), Undercharged(without) - 0.12, Undercharged(without) + 0.12);
        Assert.False(full.Beliefs.Any(belief => double.IsNaN(belief.Odds)));
    }

    [Fact]
    public void A_history_that_is_no_number_is_refused_by_name()
    {
        var evidence = ACase.Of(ACase.Point().Gauges(2, 15));
        foreach (
            var bad in new[]
            {
                new ChargeHistory(FilledHow.ByWeight, double.NaN, 0, false),
                new ChargeHistory(FilledHow.ByWeight, 0, 0, false),
                Filled(FilledHow.ByWeight, 1) with
                {
                    Left = (double.NaN, 0.1),
                },
            }
        )
            Assert.Contains(
                "ChargeHistory",
                Assert
                    .Throws<ArgumentOutOfRangeException>(() =>
                        Diagnoser.Diagnose(evidence with { History = bad }, Effort.Quick, 5)
                    )
                    .Message,
                StringComparison.Ordinal
            );
    }

    /// <summary>The table in docs/physics/diagnosis.md, too little / ordinary / too much, as it is printed
    /// there.</summary>
    [Theory]
    [InlineData(FilledHow.ByWeight, true, "0.1 / 1.5 / 0.1 | 0.1 / 1.5 / 0.1 | 0.4 / 1.1 / 0.1 | 2.0 / 0.4 / 0.1")]
    [InlineData(FilledHow.ByWeight, false, "0.1 / 1.5 / 0.1 | 0.2 / 1.5 / 0.1 | 0.5 / 1.0 / 0.1 | 2.1 / 0.4 / 0.1")]
    [InlineData(
        FilledHow.ByWeight,
        false,
        "0.2 / 1.6 / 0.2 | 0.4 / 1.4 / 0.2 | 0.8 / 0.9 / 0.2 | 2.1 / 0.4 / 0.2",
        true
    )]
    [InlineData(FilledHow.NotWeighed, false, "0.2 / 1.5 / 2.3 | 0.4 / 1.5 / 2.2 | 0.9 / 1.4 / 2.0 | 2.2 / 0.5 / 0.7")]
    [InlineData(FilledHow.ToppedUp, false, "1.6 / 0.9 / 2.6 | 2.0 / 0.7 / 2.3 | 2.6 / 0.3 / 1.3 | 1.9 / 0.1 / 0.6")]
    public void The_factors_of_the_document_are_those_of_the_program(
        FilledHow how,
        bool tight,
        string row,
        bool remembered = false
    ) =>
        Assert.Equal(
            row.Split(" | "),
            new[] { 1.0, 6, 24, 96 }
                .Select(months => By(Filled(how, months, remembered) with { ProvenTight = tight }))
                .Select(by =>
                    FormattableString.Invariant(
                        $"{Mean(by, 0.05, 0.80):0.0} / {Mean(by, 0.80, 1.12):0.0} / {Mean(by, 1.12, 1.80):0.0}"
                    )
                )
        );

    private static double Undercharged(FaultOdds answer) =>
        answer.Beliefs.Where(belief => belief.Hypothesis.Has(Fault.Undercharge)).Sum(belief => belief.Odds);
}
