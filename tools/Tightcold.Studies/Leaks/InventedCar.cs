using System.Collections.Immutable;
using Tightcold.Diagnosis.Leaks;
using Tightcold.Diagnosis.Tightness;
using Tightcold.LeakTests;
using Tightcold.Numerics.Sampling;

namespace Tightcold.Studies.Leaks;

/// <summary>A car of the search study: 0 to 3 leaks, a history, a person with instruments.</summary>
internal sealed class InventedCar
{
    /// <summary>How much more or less this person sees than the curves say, as a factor on the rate, spread of its
    /// logarithm: the study's world is not exactly the inference's.</summary>
    private const double HandSpread = 0.3;
    private const int MostLeaks = 3;
    private const double LongestSeconds = 25 * LeakForecast.Year;
    private const double LabelKg = 0.55,
        SufferingShare = 0.55;

    private readonly double hand;
    private readonly double pressurePa;
    private readonly int wind;
    private readonly bool dyed;

    private InventedCar(ulong seed, SeededChance chance)
    {
        Seed = seed;
        hand = Math.Exp(HandSpread * chance.Normal());
        var nitrogen = chance.Chance(0.25);
        pressurePa = nitrogen ? chance.Between(9e5, 13e5) : chance.Between(4.5e5, 7e5);
        wind = chance.Chance(0.7) ? 0 : 1;
        dyed = chance.Chance(0.4);
        LeakTestKind[] kinds = nitrogen
            ? [LeakTestKind.NitrogenAndSoap, LeakTestKind.UvLamp, LeakTestKind.OilTrace, LeakTestKind.DrainDye]
            :
            [
                LeakTestKind.Detector,
                LeakTestKind.UvLamp,
                LeakTestKind.Soap,
                LeakTestKind.CoverAndWait,
                LeakTestKind.OilTrace,
                LeakTestKind.DrainSniff,
            ];
        Means = [.. kinds.Where(kind => dyed || !kind.Goes(Feels.Dye)).Select(Test)];
    }

    public ulong Seed { get; }
    public bool[] Leaks { get; private set; } = [];
    public double[] Rates { get; private set; } = [];
    public bool LeaksElsewhere { get; private set; }
    public MassLoss Loss { get; private set; }
    public LeakSetting Setting { get; } = LeakSetting.Usual;
    public ImmutableArray<LeakTest> Means { get; }

    /// <summary>Truths from the prior, kept when no more than three leak; of cars that only seep every second one
    /// comes.</summary>
    public static InventedCar Draw(ulong seed, string[] circuit)
    {
        var chance = new SeededChance(seed);
        var car = new InventedCar(seed, chance);
        while (true)
        {
            car.Leaks = new bool[circuit.Length];
            car.Rates = new double[circuit.Length];
            var total = 0.0;
            for (var j = 0; j <= circuit.Length; j++)
            {
                var prior = LeakPrior.Of(
                    j < circuit.Length ? LeakComponents.FromName(circuit[j]) : LeakComponent.Unknown
                );
                var leaks = chance.Chance(prior.Leaks);
                var rate = leaks
                    ? prior.MedianKgPerS * Math.Exp(LeakPrior.LeakSpread * chance.Normal())
                    : prior.SeepKgPerS * Math.Exp(LeakPrior.SeepSpread * chance.Normal());
                total += rate;
                if (j == circuit.Length)
                    car.LeaksElsewhere = leaks;
                else
                    (car.Leaks[j], car.Rates[j]) = (leaks, rate);
            }
            var leaking = car.Leaks.Count(leaks => leaks) + (car.LeaksElsewhere ? 1 : 0);
            if (leaking > MostLeaks || leaking == 0 && chance.Chance(0.5))
                continue;
            car.Loss = History(total, chance);
            return car;
        }
    }

    /// <summary>It came when some of its charge was gone; sometimes nobody knows since when.</summary>
    private static MassLoss History(double totalKgPerS, SeededChance chance)
    {
        var known = chance.Chance(0.6);
        var lost = chance.Between(0.3, 0.95) * LabelKg;
        var steady = Math.Exp(LossObservation.Unsteadiness * chance.Normal());
        // Nobody remembers further back than the life of a car.
        var seconds = Math.Min(LongestSeconds, lost / (totalKgPerS * LossObservation.YearDuty * steady));
        lost = totalKgPerS * LossObservation.YearDuty * steady * seconds;
        const double Sigma = 0.03;
        const double Vague = 0.8;
        return new(
            -1,
            known ? seconds : Math.Min(LongestSeconds, seconds * Math.Exp(Vague * chance.Normal())),
            known ? 0 : Vague,
            lost + Sigma * chance.Normal(),
            Sigma,
            LossObservation.YearDuty
        );
    }

    /// <summary>All that is known after these checks; the label's charge is to be weighed in again.</summary>
    public TightnessEvidence Evidence(IEnumerable<LeakSpot> spots, ulong again) =>
        new(
            Setting,
            CircuitSize.Usual,
            [.. spots],
            new(LabelKg, 0.01, SufferingShare * LabelKg, Seed + again) { Effort = TightnessEffort.Glance }
        )
        {
            Losses = [Loss],
            Means = TightnessMeans.None with { Looks = Means },
        };

    private LeakTest Test(LeakTestKind kind) =>
        new(kind, LeakTestOutcome.Nothing, pressurePa, 120, wind, false, dyed, 0);

    /// <summary>Plays a test: this person's hand makes every rate look larger or smaller.</summary>
    public LeakTest Try(int spot, LeakTestKind kind, LeakComponent component, double time, SeededChance chance)
    {
        var test = Test(kind) with { Time = time, Seconds = kind == LeakTestKind.CoverAndWait ? 600 : 120 };
        var u = chance.Uniform();
        for (var outcome = LeakTestOutcome.Nothing; outcome < LeakTestOutcome.Clear; outcome++)
        {
            u -= LeakDetection.Likelihood(test with { Outcome = outcome }, component, Rates[spot] * hand, Setting);
            if (u < 0)
                return test with { Outcome = outcome };
        }
        return test with { Outcome = LeakTestOutcome.Clear };
    }
}
