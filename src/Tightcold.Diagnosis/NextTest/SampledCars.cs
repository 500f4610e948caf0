using Tightcold.Diagnosis.Inference;
using Tightcold.Diagnosis.Measurement;
using Tightcold.Loop.Results;

namespace Tightcold.Diagnosis.NextTest;

/// <summary>A sample of the cars that fit, each with its explanation.</summary>
internal sealed class SampledCars
{
    private SampledCars(Posterior posterior, (int H, int Particle)[] picks)
    {
        Posterior = posterior;
        Picks = picks;
    }

    public Posterior Posterior { get; }

    /// <summary>Explanation and particle of each.</summary>
    public (int H, int Particle)[] Picks { get; }

    public int Count => Picks.Length;

    public ReadOnlySpan<double> Point(int i) => Posterior.Runs[Picks[i].H].Particles.Point(Picks[i].Particle);

    public ReadOnlySpan<double> Row(int i) => Posterior.Runs[Picks[i].H].Particles.Row(Picks[i].Particle);

    /// <summary>To start another point from: where the car was found running at the first one, if it was.</summary>
    public LoopStart? Start(int i) => Posterior.Data.PointCount == 0 ? null : Predicted.StartOf(Row(i));

    public CarSimulator.Car Car(int i) =>
        Posterior.Simulator.At(Posterior.Runs[Picks[i].H].Hypothesis.Faults, Point(i));

    /// <summary>Drawn in proportion to their weights at even steps (systematic resampling); null without any.</summary>
    public static SampledCars? Of(Posterior posterior, int count)
    {
        var total = 0.0;
        for (var h = 0; h < posterior.Runs.Count; h++)
            total += posterior.Odds[h] * posterior.Weights[h].Sum();
        if (!(total > 0))
            return null;
        var picks = new List<(int, int)>(count);
        double before = 0;
        for (var h = 0; h < posterior.Runs.Count; h++)
        {
            for (var i = 0; i < posterior.Weights[h].Length; i++)
            {
                before += posterior.Odds[h] * posterior.Weights[h][i] / total;
                while (picks.Count < count && (picks.Count + 0.5) / count <= before)
                    picks.Add((h, i));
            }
        }

        return new(posterior, [.. picks]);
    }
}
