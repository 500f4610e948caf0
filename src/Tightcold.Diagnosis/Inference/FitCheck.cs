using Tightcold.Diagnosis.Measurement;
using Tightcold.Numerics.Distributions;

namespace Tightcold.Diagnosis.Inference;

/// <summary>
/// Whether the leading explanation explains what was read. Readings are made from its own cars as they were before any
/// reading, with the errors of instruments and model; the density of each such set over all other cars of the
/// explanation is the measure, and the share of sets that are no likelier than what was read is the answer (prior
/// predictive check; Box 1980, J. R. Stat. Soc. A 143, 383). Cars fitted to the readings would flatter them.
/// </summary>
internal static class FitCheck
{
    private const int MostDraws = 120;
    private const int MostCars = 400;

    // Of fewer cars the share says nothing.
    private const int LeastCars = 20;

    public static double Of(Posterior posterior, int h)
    {
        var items = posterior.Data.Readings.Items;
        var particles = posterior.Runs[h].Particles;
        if (items.Length == 0 || particles.Best < 0)
            return 1;
        var cars = Enumerable
            .Range(0, particles.Count)
            .Where(i => particles.PriorWeight(i) > 0)
            .Take(MostCars)
            .ToArray();
        if (cars.Length < LeastCars)
            return 1;
        var chance = new Chance(17);
        var read = items.Select(item => item.Value).ToArray();
        var logRead = LogDensity(posterior, h, cars, -1, read);
        var made = new double[items.Length];
        Span<double> shared = stackalloc double[ErrorModel.Channels];
        double worse = 1,
            all = 1;
        for (var draw = 0; draw < Math.Min(MostDraws, cars.Length); draw++)
        {
            var source = cars[draw * cars.Length / Math.Min(MostDraws, cars.Length)];
            var row = particles.Row(source);
            for (var c = 0; c < shared.Length; c++)
                shared[c] = chance.Normal();
            for (var k = 0; k < made.Length; k++)
            {
                var item = items[k];
                var error = (item.Shared * shared[item.Channel]) + (item.Own * chance.Normal());
                made[k] = row[(item.Point * Predicted.Width) + item.Channel] + error;
            }

            var weight = particles.PriorWeight(source);
            all += weight;
            if (LogDensity(posterior, h, cars, source, made) <= logRead)
                worse += weight;
        }

        return worse / all;
    }

    /// <summary>
    /// Odds that a reading would lie as far out as it does, if the leading explanation holds and all other readings are
    /// right: each car's weight without this reading, and how far out its error leaves it.
    /// </summary>
    public static double Tail(Posterior posterior, int h, in ReadingLikelihood.Item item)
    {
        var (particles, weights) = (posterior.Runs[h].Particles, posterior.Weights[h]);
        double below = 0,
            sum = 0;
        var sigma = Math.Sqrt((item.Shared * item.Shared) + (item.Own * item.Own));
        for (var i = 0; i < weights.Length; i++)
        {
            if (weights[i] <= 0)
                continue;
            var modelled = particles.Row(i)[(item.Point * Predicted.Width) + item.Channel];
            var without = weights[i] / ReadingLikelihood.Alone(item, modelled);
            sum += without;
            below += without * Normal.Cumulative((item.Value - modelled) / sigma);
        }

        return sum > 0 ? 2 * Math.Min(below, sum - below) / sum : 1;
    }

    private static double LogDensity(Posterior posterior, int h, int[] cars, int leftOut, double[] values)
    {
        var items = posterior.Data.Readings.Items;
        var particles = posterior.Runs[h].Particles;
        double most = double.NegativeInfinity,
            sum = 0,
            count = 0;
        foreach (var car in cars)
        {
            if (car == leftOut)
                continue;
            var row = particles.Row(car);
            var log = 0.0;
            for (var k = 0; k < values.Length; k++)
                log += Math.Log(
                    ReadingLikelihood.Alone(
                        items[k] with
                        {
                            Value = values[k],
                        },
                        row[(items[k].Point * Predicted.Width) + items[k].Channel]
                    )
                );
            var weight = particles.PriorWeight(car);
            count += weight;
            if (log > most)
            {
                sum *= Math.Exp(most - log);
                most = log;
            }

            sum += weight * Math.Exp(log - most);
        }

        return most + Math.Log(sum / count);
    }
}
