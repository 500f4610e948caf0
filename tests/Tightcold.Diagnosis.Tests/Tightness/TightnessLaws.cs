using Tightcold.Diagnosis.Leaks;
using Tightcold.Diagnosis.Tightness;
using Tightcold.LeakTests;
using static Tightcold.Diagnosis.Tests.Tightness.TightCase;

namespace Tightcold.Diagnosis.Tests.Tightness;

/// <summary>What must hold for any evidence, on many cases that nobody thought out.</summary>
public sealed class TightnessLaws(ITestOutputHelper output)
{
    private const int Cases = 40;

    /// <summary>
    /// The sampler's own grain, where anything is told as good. Below even odds, where tests contradict each other, one
    /// leak explains another away and a better test may shift the blame by a little.
    /// </summary>
    private static double Grain(double odds) => odds >= 0.5 ? 0.002 : 0.05;

    private static double Odds(TightnessEvidence evidence) => TightnessInference.Of(evidence).StillCools;

    private void NeverSurer(Func<TightnessEvidence, TightnessEvidence?> less)
    {
        var worst = 0.0;
        int held = 0,
            over = 0;
        for (var seed = 1UL; seed <= Cases; seed++)
        {
            var whole = TightLottery.Draw(seed);
            if (less(whole) is not { } part)
                continue;
            held++;
            var (told, left) = (Odds(whole), Odds(part));
            var more = left - told - Grain(left);
            if (more > 0)
            {
                over++;
                output.WriteLine($"seed {seed}: {Odds(whole):F4} -> {Odds(part):F4}");
            }
            worst = Math.Max(worst, more);
        }
        output.WriteLine($"{held} cases, {over} over, worst {worst:F4}");
        Assert.True(held > 8);
        Assert.Equal(0, over);
    }

    [Fact]
    public void Leaving_out_the_temperatures_of_a_hold_never_makes_it_surer() =>
        NeverSurer(evidence =>
            evidence.Holds.IsEmpty
                ? null
                : evidence with
                {
                    Holds =
                    [
                        .. evidence.Holds.Select(hold =>
                            hold with
                            {
                                Readings = [.. hold.Readings.Select(reading => reading with { TemperatureK = null })],
                            }
                        ),
                    ],
                }
        );

    [Fact]
    public void Leaving_out_the_temperatures_of_a_pressure_test_never_makes_it_surer() =>
        NeverSurer(evidence =>
            evidence.Nitrogen.IsEmpty
                ? null
                : evidence with
                {
                    Nitrogen =
                    [
                        .. evidence.Nitrogen.Select(test =>
                            test with
                            {
                                Readings = [.. test.Readings.Select(reading => reading with { TemperatureK = null })],
                            }
                        ),
                    ],
                }
        );

    [Fact]
    public void Leaving_out_the_later_half_of_a_flat_hold_never_makes_it_surer() =>
        NeverSurer(evidence =>
            evidence.Holds.IsEmpty || evidence.Holds[0].Readings.Length < 4 || !Flat(evidence.Holds[0])
                ? null
                : evidence with
                {
                    Holds =
                    [
                        evidence.Holds[0] with
                        {
                            Readings = evidence.Holds[0].Readings[..(evidence.Holds[0].Readings.Length / 2)],
                        },
                    ],
                }
        );

    private static bool Flat(VacuumHold hold) =>
        hold.Readings.Max(reading => reading.PressurePa) - hold.Readings[0].PressurePa <= hold.Readings[0].StepPa;

    [Fact]
    public void Leaving_out_a_check_that_found_nothing_never_makes_it_surer() =>
        NeverSurer(evidence =>
        {
            foreach (var spot in evidence.Spots)
                for (var i = 0; i < spot.Tests.Length; i++)
                    if (
                        spot.Tests[i].Outcome == LeakTestOutcome.Nothing
                        && (spot.MendedAt is null || spot.Tests[i].Time > spot.MendedAt)
                    )
                        return evidence.With(spot.Name, each => each with { Tests = each.Tests.RemoveAt(i) });
            return null;
        });

    [Fact]
    public void Leaving_out_a_search_of_the_whole_circuit_that_found_nothing_never_makes_it_surer() =>
        NeverSurer(evidence => evidence.Searches.IsEmpty ? null : evidence with { Searches = [] });

    [Fact]
    public void Leaving_out_a_flat_pressure_test_or_hold_never_makes_it_surer() =>
        NeverSurer(evidence =>
            !evidence.Nitrogen.IsEmpty
            && TightnessInference.Of(evidence).Tests[^1].RateKgPerS.P05 <= 0
            && evidence.Nitrogen[0].Readings[^1].PressurePa >= evidence.Nitrogen[0].Readings[0].PressurePa
                ? evidence with
                {
                    Nitrogen = [],
                }
            : !evidence.Holds.IsEmpty && Flat(evidence.Holds[0]) ? evidence with { Holds = [] }
            : null
        );

    [Fact]
    public void Mending_a_place_last_never_lowers_it() =>
        NeverLower(evidence =>
        {
            var spot = evidence.Spots[(int)(evidence.Question.Seed % (ulong)evidence.Spots.Length)];
            return spot.MendedAt is not null
                ? null
                : evidence.With(spot.Name, each => each with { MendedAt = 100_000 });
        });

    private void NeverLower(Func<TightnessEvidence, TightnessEvidence?> more)
    {
        var worst = 0.0;
        int held = 0,
            over = 0;
        for (var seed = 1UL; seed <= Cases; seed++)
        {
            var before = TightLottery.Draw(seed);
            if (more(before) is not { } after)
                continue;
            held++;
            var told = Odds(before);
            var less = told - Odds(after) - Grain(told);
            if (less > 0)
            {
                over++;
                output.WriteLine($"seed {seed}: {Odds(before):F4} -> {Odds(after):F4}");
            }
            worst = Math.Max(worst, less);
        }
        output.WriteLine($"{held} cases, {over} over, worst {worst:F4}");
        Assert.Equal(0, over);
    }

    [Fact]
    public void A_check_that_could_not_see_moves_nothing()
    {
        for (var seed = 1UL; seed <= 20; seed++)
        {
            var evidence = TightLottery.Draw(seed);
            var spot = evidence.Spots[(int)(seed % 16)].Name;
            var blind = Test(LeakTestKind.Detector, (LeakTestOutcome)(seed % 3), 55_000) with { Blind = true };
            var weak = Test(LeakTestKind.Detector, LeakTestOutcome.Nothing, 55_000, 140_000);
            Assert.Equal(Odds(evidence), Odds(evidence.Checked(spot, blind)));
            Assert.Equal(Odds(evidence), Odds(evidence.Checked(spot, weak)));
        }
    }

    [Fact]
    public void A_failed_pressure_test_with_no_repair_after_it_is_never_proven_whatever_else_is_good()
    {
        for (var seed = 1UL; seed <= 20; seed++)
        {
            var evidence = TightLottery.Draw(seed);
            var failed = evidence with
            {
                Nitrogen = evidence.Nitrogen.Add(Nitrogen(45_000 - 500 * seed, 20 + seed, 15, 13.5 - 0.1 * seed)),
                Holds = evidence.Holds.Add(Hold(70_000, 240, 2)),
                Searches = evidence.Searches.Add(Detector(80_000)),
            };
            var belief = TightnessInference.Of(failed);
            Assert.InRange(belief.StillCools, 0, belief.Unanswered.IsEmpty ? 0.99 : 0.5);
            Assert.True(
                belief.Verdict is TightnessVerdict.NotProven or TightnessVerdict.Leaking || belief.Unanswered.IsEmpty,
                $"seed {seed}"
            );
            Assert.False(belief.Unanswered.IsEmpty);
        }
    }

    [Fact]
    public void The_more_the_pressure_fell_the_less_sure_it_is()
    {
        for (var seed = 1UL; seed <= 8; seed++)
        {
            var evidence = TightLottery.Draw(seed) with { Holds = [] };
            var before = 1.0;
            foreach (var fall in (double[])[0, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 3])
            {
                var odds = Odds(evidence with { Nitrogen = [Nitrogen(45_000, 120, 15, 15 - fall)] });
                Assert.True(odds <= before + Grain(odds), $"seed {seed}, {fall} bar: {odds:F4} after {before:F4}");
                before = odds;
            }
        }
    }

    [Fact]
    public void The_more_a_hold_rose_the_less_sure_it_is()
    {
        for (var seed = 1UL; seed <= 8; seed++)
        {
            var evidence = TightLottery.Draw(seed) with { Nitrogen = [] };
            var before = 1.0;
            foreach (var rise in (double[])[0, 2, 5, 10, 20, 50, 200, 1000, 5000])
            {
                var odds = Odds(evidence with { Holds = [Hold(45_000, 60, rise)] });
                Assert.True(odds <= before + Grain(odds), $"seed {seed}, {rise} Pa: {odds:F4} after {before:F4}");
                before = odds;
            }
        }
    }

    [Fact]
    public void The_clearer_a_check_the_less_sure_it_is()
    {
        for (var seed = 1UL; seed <= 20; seed++)
        {
            var evidence = TightLottery.Draw(seed);
            var spot = evidence.Spots[(int)(seed % 16)].Name;
            var before = 1.0;
            foreach (
                var outcome in (LeakTestOutcome[])
                    [LeakTestOutcome.Nothing, LeakTestOutcome.Trace, LeakTestOutcome.Clear]
            )
            {
                var odds = Odds(evidence.Checked(spot, Test(LeakTestKind.Detector, outcome, 90_000)));
                Assert.True(
                    odds <= before + Grain(odds),
                    $"seed {seed}, {spot} {outcome}: {odds:F4} after {before:F4}"
                );
                before = odds;
            }
        }
    }
}
