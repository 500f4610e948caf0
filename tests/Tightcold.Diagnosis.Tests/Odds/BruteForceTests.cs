using Tightcold.Diagnosis.Inference;
using Tightcold.Studies.Faults;

namespace Tightcold.Diagnosis.Tests.Odds;

public sealed class BruteForceTests
{
    // One car, because a brute force is what it says; the standard error that both state together is 0.005. Fifty cars:
    // docs/validation-diagnosis.md.
    [Fact]
    public void Deep_odds_lie_within_two_hundredths_of_a_brute_force()
    {
        var report = AgainstBruteForce.Run(from: 503, cars: 1, CancellationToken.None);
        Assert.All(report.Lines.Where(line => line.Effort == "deep"), line => Assert.InRange(line.Difference, 0, 0.02));
        Assert.Contains(report.Lines, line => line.Difference > 0);
    }

    // Plain prior sampling without any refinement, a dozen times as many cars: a second way to the same integral.
    private static readonly Effort Plain = new(900, 64, 0, 0);

    // Car 10 has a dead clutch, car 4 a shortage. The tolerance is that of plain sampling with few hits.
    [Theory]
    [InlineData(10)]
    [InlineData(4)]
    public void Refined_odds_agree_with_plain_sampling_of_the_same_posterior(int number)
    {
        var evidence = CarLottery.Draw(number).Evidence;
        var refined = Diagnoser.Diagnose(evidence, Effort.Full, 3);
        var plain = Diagnoser.Diagnose(evidence, Plain, 4);
        foreach (var belief in refined.Beliefs.Take(3))
            Assert.InRange(Math.Abs(belief.Odds - plain.OddsOf(belief.Hypothesis.Key)), 0, 0.12);
    }
}
