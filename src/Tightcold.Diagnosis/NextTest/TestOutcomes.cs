using System.Collections.Immutable;
using Tightcold.Diagnosis.Inference;
using Tightcold.Diagnosis.Measurement;

namespace Tightcold.Diagnosis.NextTest;

/// <summary>A test done in thought on every sampled car.</summary>
internal static class TestOutcomes
{
    private const double LeastOddsWithMeaning = 0.08;

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

            outcomes[i] = plan.Outcome!(cars, i, car);
        }

        return outcomes;
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

    private static Outcome OfPoint(TestPlan plan, SampledCars cars, int i, double[] row)
    {
        if (plan.Channels.IsEmpty)
            return new([], [], plan.Seen!(row));
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
}
