using Tightcold.Diagnosis.Faults;
using Tightcold.Diagnosis.Inference;
using Tightcold.Diagnosis.Measurement;
using Tightcold.Diagnosis.Priors;
using Tightcold.Diagnosis.Tests.Odds;
using Tightcold.Loop.Designs;
using Tightcold.Numerics.Matrices;

namespace Tightcold.Diagnosis.Tests.Sampling;

public sealed class KindProposalTests
{
    private const int D = Coordinate.Count;

    [Fact]
    public void A_car_whose_circuit_is_not_known_has_a_range_for_each_kind_that_can_have_the_fault()
    {
        var simulator = new CarSimulator(new CarKnowledge("R134a") { LabelChargeKg = 0.6 });
        var all = simulator.KindRanges([Fault.Undercharge]);
        Assert.Equal(0, all[0].From);
        Assert.Equal(1, all[^1].To, 1e-12);
        for (var k = 1; k < all.Length; k++)
            Assert.Equal(all[k - 1].To, all[k].From);
        var valves = simulator.KindRanges([Fault.ValveStuckClosed]);
        Assert.True(valves.Length < all.Length);
        var z = new double[D];
        foreach (var range in valves)
        {
            foreach (var within in new[] { -3.0, 0, 3 })
            {
                z[Coordinate.Kind] = range.Press(within);
                Assert.True(range.Holds(z[Coordinate.Kind]));
                Assert.Equal(ExpansionKind.ExpansionValve, simulator.At([Fault.ValveStuckClosed], z).Design.Expansion);
            }
        }

        // One kind a range: whatever the place in it, the same compressor and throttle.
        foreach (var range in all)
        {
            var kinds = new[] { -2.5, -1, 0, 1, 2.5 }.Select(within =>
            {
                z[Coordinate.Kind] = range.Press(within);
                var design = simulator.At([Fault.Undercharge], z).Design;
                return (design.Compressor, design.Expansion);
            });
            Assert.Single(kinds.Distinct());
        }
    }

    // The mean of prior over proposal, drawn from the proposal, is the prior's whole: 1. A law, no source needed.
    [Fact]
    public void What_is_drawn_has_the_density_that_it_is_weighed_with()
    {
        var mean = new double[D];
        var precision = new double[D * D];
        for (var k = 0; k < D; k++)
            precision[(k * D) + k] = 1;
        mean[Coordinate.Charge] = 0.4;
        precision[(Coordinate.Charge * D) + Coordinate.Charge] = 0.8;
        precision[(Coordinate.Charge * D) + Coordinate.CoilNtu] = precision[
            (Coordinate.CoilNtu * D) + Coordinate.Charge
        ] = 0.3;
        Assert.True(Cholesky.TryFactor(precision, D));
        var fit = new NormalProposal(mean, precision, D, 1);
        const int Count = 40_000;
        var proposal = new KindProposal([
            (new(0, 0.5), Count / 10, default),
            (new(0.5, 0.6), Count / 2, new(fit, null)),
            (new(0.6, 1), Count * 4 / 10, new(fit, null)),
        ]);
        var chance = new Chance(3);
        var even = PointSequence.Normal(Count, D, chance);
        double sum = 0,
            squares = 0;
        for (var i = 0; i < Count; i++)
        {
            var z = even.AsSpan(i * D, D);
            proposal.Place(i, z);
            var prior = -0.5 * D * Math.Log(2 * Math.PI);
            foreach (var x in z)
                prior -= 0.5 * x * x;
            var ratio = Math.Exp(prior - proposal.LogDensity(z, prior));
            sum += ratio;
            squares += ratio * ratio;
        }

        var error = Math.Sqrt(((squares / Count) - (sum / Count * sum / Count)) / Count);
        Assert.InRange(sum / Count, 1 - (4 * error), 1 + (4 * error));
        Assert.InRange(error, 1e-6, 0.02);
    }

    // A shortage on a circuit nobody has looked up; the longer look is the program's own with six times the work.
    [Fact]
    public void Odds_of_a_car_whose_circuit_is_not_known_lie_near_those_of_a_far_longer_look()
    {
        var evidence = ACase.Of(ACase.Point().Gauges(1.2, 9.5).At(Channel.Vent, 17));
        evidence = evidence with { Car = evidence.Car with { Compressor = null, Expansion = null } };
        var usual = Diagnoser.Diagnose(evidence, Effort.Full, 5);
        var longer = Diagnoser.Diagnose(evidence, Effort.Deep, 6);
        Assert.All(usual.Beliefs, belief =>
            Assert.InRange(belief.Odds - longer.OddsOf(belief.Hypothesis.Key), -0.03, 0.03)
        );
        Assert.InRange(usual.Leading.Odds, 0.2, 0.99);
    }
}
