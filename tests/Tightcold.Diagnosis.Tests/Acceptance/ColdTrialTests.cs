using Tightcold.Diagnosis.Acceptance;
using Tightcold.Studies.Cold;

namespace Tightcold.Diagnosis.Tests.Acceptance;

public sealed class ColdTrialTests
{
    private static readonly LoopCars Judges = LoopCars.Of(new("R134a"));

    // The short version of `Tightcold.Studies -- cold --count 1000`. Bounds: what the full run printed on 30 November 2026
    // (0.002, 0.152 and 0.688; docs/validation-charge.md), widened by three standard deviations of 100 cars. The cars come from a loop of
    // another build than the band that judges them, in 20 to 45 °C, dry and humid, fresh and recirculated, parked and
    // driving.
    [Fact]
    public void Few_simulated_healthy_cars_are_called_sick_and_few_that_blow_warm_are_called_healthy()
    {
        var rates = ColdTrial.Run(Judges, 100, 100, 20);
        var healthy = rates.Single(rate => rate.Fault == CarFault.None);
        var faulty = rates.Where(rate => rate.Fault != CarFault.None).ToArray();
        Assert.Equal(100, healthy.Cars);
        Assert.Equal(100, faulty.Sum(rate => rate.Cars));
        Assert.InRange((double)healthy.CalledSick / healthy.Cars, 0, 0.02);
        Assert.InRange((double)faulty.Sum(rate => rate.FeltCalledHealthy) / faulty.Sum(rate => rate.Felt), 0, 0.30);
        Assert.True(healthy.CalledHealthy > 0.55 * healthy.Cars, $"{healthy}");
    }

    [Fact]
    public void The_same_seed_draws_the_same_cars()
    {
        Assert.Equal(ColdTrial.Run(Judges, 5, 5, 3), ColdTrial.Run(Judges, 5, 5, 3));
        Assert.NotEqual(ColdTrial.Run(Judges, 5, 5, 3), ColdTrial.Run(Judges, 5, 5, 4));
    }
}
