using System.Collections.Immutable;
using Tightcold.Numerics.Distributions;
using Tightcold.Numerics.Sampling;

namespace Tightcold.Procedures.Cold;

/// <summary>All vent readings of a proof together: the same car must explain each of them.</summary>
/// <param name="OddsHealthy">As a healthy one, 0 to 1; even odds before the readings.</param>
/// <param name="Each">The same from each reading alone.</param>
/// <param name="ShareLow">Cooling as a share of a healthy car's, 5 % limit.</param>
/// <param name="ShareMedian">Its middle.</param>
/// <param name="ShareHigh">95 % limit.</param>
/// <remarks>
/// Bayes' rule over sampled cars: P(readings | healthy) = mean over cars of the product over readings of their
/// densities, since one car keeps its coil and capacity from reading to reading. One reading in twenty may be a slip
/// (probe fallen out, door open): its density has a flat floor.
/// </remarks>
public sealed record ColdProof(
    double OddsHealthy,
    ImmutableArray<double> Each,
    double ShareLow,
    double ShareMedian,
    double ShareHigh
)
{
    private const double SlipShare = 0.05;
    private const double SlipSpanK = 40;

    /// <exception cref="ArgumentException">No reading.</exception>
    public static ColdProof Of(IReadOnlyList<VentObservation> observations)
    {
        if (observations.Count == 0)
            throw new ArgumentException("at least one reading is needed", nameof(observations));
        var cars = observations[0].Band.Cars;
        if (observations.Any(observation => observation.Band.Cars != cars))
            throw new ArgumentException("all readings are held against the same cars", nameof(observations));
        var healthy = Enumerable.Repeat(1.0, cars.Count).ToArray();
        var sick = Enumerable.Repeat(1.0, cars.Count).ToArray();
        var each = ImmutableArray.CreateBuilder<double>(observations.Count);
        foreach (var observation in observations)
        {
            if (!double.IsFinite(observation.VentK) || !(observation.ThermometerSigmaK >= 0))
                throw new ArgumentOutOfRangeException(
                    nameof(observations),
                    observation.VentK,
                    "a finite temperature and an error of 0 or more are needed"
                );
            var sigma = Math.Sqrt(
                Math.Pow(observation.ThermometerSigmaK, 2)
                    + Math.Pow(DuctHeat.SigmaK(observation.Weather, cars.SettledSigmaK), 2)
            );
            var (healthyK, sickK) = (observation.Band.HealthyK, observation.Band.SickK);
            double coldest = double.MaxValue,
                good = 0,
                bad = 0;
            foreach (var k in healthyK)
                coldest = Math.Min(coldest, k);
            // Colder than any model car is no fault of cooling.
            var reading = Math.Max(observation.VentK, coldest);
            for (var i = 0; i < cars.Count; i++)
            {
                var (h, s) = (Density(reading, healthyK[i], sigma), Density(reading, sickK[i], sigma));
                healthy[i] *= h;
                sick[i] *= s;
                good += h;
                bad += s;
            }
            each.Add(good / (good + bad));
        }
        var total = healthy.Sum() + sick.Sum();
        double[] shares = [.. Enumerable.Range(0, cars.Count).Select(cars.SickShare), 1];
        double[] weights = [.. sick, healthy.Sum()];
        Array.Sort(shares, weights);
        double At(double level) => Quantile.Of(shares, weights, level);
        return new(healthy.Sum() / total, each.ToImmutable(), At(0.05), At(0.5), At(0.95));
    }

    private static double Density(double reading, double predicted, double sigma) =>
        (1 - SlipShare) * Normal.Density((reading - predicted) / sigma) / sigma + SlipShare / SlipSpanK;
}
