using System.Collections.Immutable;
using Tightcold.Diagnosis.Inference;
using Tightcold.Diagnosis.Measurement;
using Tightcold.Diagnosis.Priors;

namespace Tightcold.Diagnosis.NextTest;

/// <summary>A test done in thought on every sampled car.</summary>
internal static class TestOutcomes
{
    private const double LeastOddsWithMeaning = 0.08;
    private const double StandingSigmaPa = 0.15e5;
    private const double WeighedSigmaKg = 0.025;

    // One bar draws in through the larger leaks only; hoses and water make a tight one rise now and then. Common
    // practice, no source.
    private const double LeakRises = 0.5;
    private const double TightRises = 0.1;

    public static TestValue Value(TestPlan plan, SampledCars cars, Chance chance)
    {
        var outcomes = Outcomes(plan, cars);
        var hypotheses = cars.Posterior.Runs.Count;
        var now = Shares(cars, hypotheses);
        var then = new double[cars.Count][];
        var fall = 0.0;
        for (var i = 0; i < cars.Count; i++)
        {
            then[i] = After(outcomes, outcomes[i].Draw(chance), cars, hypotheses);
            fall += (Entropy(now) - Entropy(then[i])) / cars.Count;
        }

        return new(plan.Kind, Math.Max(0, fall), plan.Minutes, plan.Money, Meanings(plan, cars, outcomes, now, then));
    }

    private static ImmutableArray<TestMeaning> Meanings(
        TestPlan plan,
        SampledCars cars,
        Outcome[] outcomes,
        double[] now,
        double[][] then
    )
    {
        var list = new List<TestMeaning>();
        for (var h = 0; h < now.Length; h++)
        {
            if (now[h] < LeastOddsWithMeaning)
                continue;
            var members = Enumerable.Range(0, cars.Count).Where(i => cars.Picks[i].H == h).ToArray();
            var expected =
                outcomes[0].Numbers.Length == 0
                    ? default
                    : Interval.Of([.. members.Select(i => (outcomes[i].Numbers[0], 1.0))]);
            list.Add(
                new(
                    cars.Posterior.Runs[h].Hypothesis,
                    plan.Channels.IsEmpty ? null : plan.Channels[0],
                    expected,
                    now[h],
                    members.Average(i => then[i][h])
                )
            );
        }

        return [.. list.OrderByDescending(meaning => meaning.OddsNow).Take(3)];
    }

    private static Outcome[] Outcomes(TestPlan plan, SampledCars cars)
    {
        var outcomes = new Outcome[cars.Count];
        var row = new double[Predicted.Width];
        for (var i = 0; i < outcomes.Length; i++)
        {
            var car = cars.Car(i);
            if (!plan.Signs.IsEmpty)
            {
                outcomes[i] = new([], [], Found(plan, cars, i, car));
                continue;
            }

            if (plan.Point is { } point)
            {
                // A car that does not settle there shows what it showed when it was read; of cars that were never read
                // running, what the one before it shows.
                if (
                    cars.Posterior.Simulator.Run(car, point, cars.Point(i), cars.Start(i), row) is null
                    && cars.Posterior.Data.PointCount > 0
                )
                    cars.Row(i)[..Predicted.Width].CopyTo(row);
                outcomes[i] = OfPoint(plan, cars, i, row);
                continue;
            }

            outcomes[i] = plan.Kind switch
            {
                TestKind.StandingReading => Standing(cars, i, car),
                TestKind.RecoverAndWeigh => new([car.ChargeKg], [WeighedSigmaKg], []),
                _ => new([], [], Held(cars.Posterior.Runs[cars.Picks[i].H].Hypothesis.Has(Fault.Undercharge))),
            };
        }

        return outcomes;
    }

    private static Outcome Standing(SampledCars cars, int i, CarSimulator.Car car)
    {
        var ambient = cars.Posterior.Data.Evidence.Points.IsEmpty
            ? 298.15
            : cars.Posterior.Data.Evidence.Points[^1].AmbientK;
        var (pressure, saturation) = CarSimulator.Standing(car, ambient);
        var thermal = (pressure < 0.97 * saturation ? 0.0035 : 0.029) * pressure;
        return new([pressure], [Math.Sqrt((StandingSigmaPa * StandingSigmaPa) + (thermal * thermal))], []);
    }

    private static double[] Found(TestPlan plan, SampledCars cars, int i, CarSimulator.Car car)
    {
        var faults = cars.Posterior.Runs[cars.Picks[i].H].Hypothesis.Faults;
        var odds = new double[plan.Signs.Length];
        for (var k = 0; k < odds.Length; k++)
        {
            var row = cars.Posterior.Data.PointCount > 0 ? cars.Row(i)[..Predicted.Width] : [];
            odds[k] = SignOdds.Of(plan.Signs[k], faults, car.Faults, row, car.HasTube);
        }

        return odds;
    }

    private static double[] Held(bool lost) => lost ? [LeakRises, 1 - LeakRises] : [TightRises, 1 - TightRises];

    private static Outcome OfPoint(TestPlan plan, SampledCars cars, int i, double[] row)
    {
        if (plan.Channels.IsEmpty)
            return new([], [], Seen(plan.Kind, row));
        var numbers = new double[plan.Channels.Length];
        var sigmas = new double[plan.Channels.Length];
        for (var c = 0; c < numbers.Length; c++)
        {
            var channel = plan.Channels[c];
            var value = row[(int)channel];
            var (shared, own) = ErrorModel.Sigmas(new(channel, value, Instrument(cars, channel)));
            var (mean, variance) = cars.Posterior.Data.Readings.LeftOver(channel, cars.Row(i), shared);
            numbers[c] = value + mean;
            sigmas[c] = Math.Sqrt(variance + (own * own));
        }

        return new(numbers, sigmas, []);
    }

    private static double Instrument(SampledCars cars, Channel channel)
    {
        foreach (var point in cars.Posterior.Data.Evidence.Points)
        foreach (var reading in point.Readings)
            if (reading.Channel == channel)
                return reading.SigmaInstrument;
        return channel switch
        {
            Channel.LowSide or Channel.LowSwingTop => 0.14e5,
            Channel.HighSide => 0.28e5,
            _ => 0.8,
        };
    }

    private static double[] Seen(TestKind kind, double[] row) =>
        kind switch
        {
            TestKind.LookAtGlass =>
            [
                SeenLikelihood.Glass(GlassSeen.Clear, row),
                SeenLikelihood.Glass(GlassSeen.Bubbles, row),
            ],
            TestKind.LookForFrost =>
            [
                SeenLikelihood.Frost(FrostSeen.Nowhere, row),
                SeenLikelihood.Frost(FrostSeen.AtThrottle, row),
                SeenLikelihood.Frost(FrostSeen.OnSuctionLine, row),
                SeenLikelihood.Frost(FrostSeen.OnDrier, row),
            ],
            _ =>
            [
                SeenLikelihood.Clutch(ClutchSeen.On, row),
                SeenLikelihood.Clutch(ClutchSeen.Off, row),
                SeenLikelihood.Clutch(ClutchSeen.Cycling, row),
            ],
        };

    private static double[] Shares(SampledCars cars, int hypotheses)
    {
        var shares = new double[hypotheses];
        foreach (var (h, _) in cars.Picks)
            shares[h] += 1.0 / cars.Count;
        return shares;
    }

    private static double[] After(Outcome[] outcomes, Outcome read, SampledCars cars, int hypotheses)
    {
        var odds = new double[hypotheses];
        var sum = 0.0;
        for (var j = 0; j < outcomes.Length; j++)
        {
            var density = outcomes[j].Density(read);
            odds[cars.Picks[j].H] += density;
            sum += density;
        }

        for (var h = 0; h < hypotheses; h++)
            odds[h] /= sum;
        return odds;
    }

    private static double Entropy(double[] odds)
    {
        var sum = 0.0;
        foreach (var p in odds)
            if (p > 0)
                sum -= p * Math.Log2(p);
        return sum;
    }

    /// <summary>Numbers with their spreads, or odds of each thing that may be seen. A drawn one holds what was read, or
    /// the index of what was seen.</summary>
    private readonly record struct Outcome(double[] Numbers, double[] Sigmas, double[] Odds)
    {
        public Outcome Draw(Chance chance)
        {
            var read = new double[Numbers.Length];
            for (var c = 0; c < read.Length; c++)
                read[c] = Numbers[c] + (Sigmas[c] * chance.Normal());
            if (Odds.Length == 0)
                return new(read, [], []);
            var u = chance.Uniform() * Odds.Sum();
            var seen = 0;
            while (seen < Odds.Length - 1 && (u -= Odds[seen]) > 0)
                seen++;
            return new(read, [], [seen]);
        }

        public double Density(in Outcome read)
        {
            var density = Odds.Length == 0 ? 1 : Odds[(int)read.Odds[0]] / Odds.Sum();
            for (var c = 0; c < Numbers.Length; c++)
                density *= (ReadingLikelihood.Student((read.Numbers[c] - Numbers[c]) / Sigmas[c]) / Sigmas[c]) + 1e-12;
            return density;
        }
    }
}
