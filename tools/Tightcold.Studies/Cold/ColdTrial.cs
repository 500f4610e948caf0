using System.Collections.Immutable;
using Tightcold.Numerics.Sampling;
using Tightcold.Procedures.Cold;

namespace Tightcold.Studies.Cold;

/// <summary>Invented cars, healthy and faulty, in invented weather, read with a household thermometer and judged by the
/// proof of cold: how often it is wrong. The cars are simulated: the rates say nothing of cars unlike them.</summary>
public static class ColdTrial
{
    private static readonly CarFault[] Faults =
    [
        CarFault.Undercharge,
        CarFault.WeakCompressor,
        CarFault.BlockedCondenser,
        CarFault.AirOrOvercharge,
        CarFault.BlendDoor,
    ];

    /// <param name="cars">Who judges.</param>
    /// <param name="healthy">Healthy cars, 1 or more.</param>
    /// <param name="faulty">Faulty cars, spread over the kinds.</param>
    /// <param name="seed">The same seed, the same cars.</param>
    public static ImmutableArray<TrialRates> Run(IVentCars cars, int healthy, int faulty, int seed)
    {
        if (healthy < 0 || faulty < 0 || healthy + faulty == 0)
            throw new ArgumentOutOfRangeException(nameof(healthy), healthy, "at least one car is needed");
        ArgumentNullException.ThrowIfNull(cars);
        var tallies = new Dictionary<CarFault, TrialRates> { [CarFault.None] = new(CarFault.None, 0, 0, 0, 0, 0) };
        foreach (var fault in Faults)
            tallies[fault] = new(fault, 0, 0, 0, 0, 0);
        for (var i = 0; i < healthy + faulty; i++)
        {
            var fault = i < healthy ? CarFault.None : Faults[(i - healthy) % Faults.Length];
            var (odds, warmerK) = Judge(cars, unchecked((ulong)(seed * 1_000_003 + i)), fault);
            var felt = warmerK >= 4;
            var old = tallies[fault];
            tallies[fault] = new(
                fault,
                old.Cars + 1,
                old.CalledHealthy + (odds >= 0.8 ? 1 : 0),
                old.CalledSick + (odds <= 0.2 ? 1 : 0),
                old.Felt + (felt ? 1 : 0),
                old.FeltCalledHealthy + (felt && odds >= 0.8 ? 1 : 0)
            );
        }
        return [.. tallies.Values.Where(rates => rates.Cars > 0)];
    }

    /// <summary>One car, one day, one to three readings.</summary>
    private static (double Odds, double WarmerK) Judge(IVentCars cars, ulong seed, CarFault fault)
    {
        var chance = new SeededChance(seed);
        double outsideK = 273.15 + chance.Between(20, 45),
            humidityShare = outsideK > 308 ? chance.Between(0.15, 0.5) : chance.Between(0.2, 0.8),
            barometer = chance.Between(84_000, 102_500);
        var outsideHumidity = humidityShare * DampAir.SaturatedRatio(outsideK, barometer);
        var inSun = chance.Chance(0.4);
        var recirculated = chance.Chance(0.5);
        var drives = chance.Chance(0.5);
        var cabinK = outsideK + (inSun ? chance.Between(5, 22) : chance.Between(-3, 5));
        var extraK = chance.Between(0, inSun ? 10 : 4);
        var soakK = chance.Between(1, inSun ? 10 : 5);
        double[] moments = chance.Below(3) switch
        {
            0 => [900],
            1 => [300, 900],
            _ => [180, 480, 1200],
        };
        var carSeed = (ulong)chance.Below(int.MaxValue);
        bool Driving(double time) => drives && time >= 300;
        (double VentK, double CabinK)[] Drive(CarFault with) =>
            new SimulatedCar(new SeededChance(carSeed), with).PullDown(
                cabinK,
                outsideHumidity,
                outsideK,
                outsideHumidity,
                barometer,
                inSun ? 700 : 150,
                recirculated,
                Driving,
                extraK,
                soakK,
                moments
            );
        var run = Drive(fault);
        var warmerK = fault == CarFault.None ? 0 : run[^1].VentK - Drive(CarFault.None)[^1].VentK;
        double thermometer = chance.Normal() * 0.6,
            hygrometer = chance.Normal() * 0.04,
            cabinError = chance.Normal(),
            outsideError = chance.Normal() * 0.6;
        var readOutsideK = outsideK + outsideError;
        var readHumidity =
            Math.Clamp(humidityShare + hygrometer, 0.05, 1) * DampAir.SaturatedRatio(readOutsideK, barometer);
        var observations = run.Select(
                (truth, index) =>
                {
                    var intakeK = recirculated ? truth.CabinK + cabinError : readOutsideK;
                    // As the finding takes it: cabin air half as dried as the coil can make it.
                    var ratio = recirculated
                        ? 0.5 * (readHumidity + Math.Min(readHumidity, DampAir.SaturatedRatio(281.15, barometer)))
                        : readHumidity;
                    var moving = Driving(moments[index]);
                    return VentObservation.Of(
                        new(
                            intakeK,
                            ratio,
                            recirculated ? 1.4 : 0.6,
                            readOutsideK,
                            barometer,
                            "full",
                            moving,
                            moments[index],
                            inSun && !moving
                        ),
                        truth.VentK + thermometer + chance.Normal() * 0.3,
                        0.75,
                        cars
                    );
                }
            )
            .ToArray();
        return (ColdProof.Of(observations).OddsHealthy, warmerK);
    }
}
