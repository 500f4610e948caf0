using Tightcold.Diagnosis.Measurement;
using Tightcold.Diagnosis.Priors;

namespace Tightcold.Diagnosis.Inference;

/// <summary>
/// From readings to odds over faults: each explanation is tried on many cars that the label allows, by the loop model;
/// the cars are weighted by how well they explain the readings. Importance sampling with a common first set of points,
/// refined where the answer hangs on it. The same evidence and seed give the same answer, bit for bit.
/// Method and figures: docs/physics/diagnosis.md.
/// </summary>
public static class Diagnoser
{
    // How much too unlikely few effective points may make an explanation look; the figures were tried on the study's cars.
    private const double Missed = 12;
    private const double MostMissed = 7;

    // Batches grow with what has been tried, so that few proposals serve many points.
    private const int BatchShare = 4;

    // Odds above this on fewer effective cars than the least are called uncertain.
    private const double OddsThatMatter = 0.10;
    private const double LeastEffective = 25;

    /// <param name="evidence">Readings with the car; not empty and with finite numbers.</param>
    /// <param name="effort">How hard to look.</param>
    /// <param name="seed">Makes the sampling repeatable; the job's.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number that is none.</exception>
    public static FaultOdds Diagnose(DiagnosisEvidence evidence, Effort effort, ulong seed)
    {
        ArgumentNullException.ThrowIfNull(evidence);
        EvidenceCheck.Finite(evidence);
        var (kept, contradictions) = Contradictions.Of(evidence);
        var data = new DataModel(kept);
        var simulator = new CarSimulator(kept.Car);
        var hypotheses = HypothesisSet.For(kept.Car);
        var runs = hypotheses.Select((hypothesis, h) => new HypothesisRun(hypothesis, simulator, data, seed + ((ulong)(h + 1) << 32))).ToArray();
        var common = PointSequence.Normal(effort.FirstPoints, Coordinate.Count, new Chance(seed));
        foreach (var run in runs)
            if (!run.Hypothesis.IsNoneOfThese) run.First(common, effort.FirstPoints);
        Refine(runs, effort);
        return Summary.Of(new Posterior(runs, simulator, data), contradictions, Uncertain);
    }

    /// <summary>
    /// Few prior points may all miss the cars that fit, and then an explanation looks far too unlikely. So what is left
    /// of the odds' error counts double: the error that the effective points state, and what the odds could still
    /// rise to with so few of them. The batches go where that is largest.
    /// </summary>
    private static void Refine(HypothesisRun[] runs, Effort effort)
    {
        var left = effort.Solves;
        while (left > 0)
        {
            var odds = Odds(runs);
            var (worst, error) = (-1, effort.OddsError);
            for (var h = 0; h < runs.Length; h++)
            {
                if (runs[h].Hypothesis.IsNoneOfThese) continue;
                var own = OpenError(odds[h], runs[h]);
                if (own > error) (worst, error) = (h, own);
                // However sure the fault, its charge and severity want a crowd too.
                if (odds[h] > 0.5 && runs[h].Particles.Effective < 2 * LeastEffective && worst < 0) worst = h;
            }

            if (worst < 0) return;
            var before = runs[worst].Solves;
            runs[worst].Refine(Math.Max(effort.Batch, runs[worst].Particles.Count / BatchShare));
            left -= runs[worst].Solves - before;
        }
    }

    private static double OpenError(double odds, HypothesisRun run)
    {
        // exp(12 over the effective points): three may miss a factor of fifty, twelve of three, a hundred hardly any.
        var factor = Math.Exp(Math.Min(MostMissed, Missed / run.Particles.Effective));
        var couldBe = odds * factor / (1 + (odds * (factor - 1)));
        return (couldBe - odds) + (odds * (1 - odds) * run.RelativeError);
    }

    private static bool Uncertain(double odds, double effective) => odds > OddsThatMatter && effective < LeastEffective;

    private static double[] Odds(HypothesisRun[] runs)
    {
        var logs = runs.Select(run => Math.Log(run.Hypothesis.Prior) + run.LogEvidence).ToArray();
        var top = logs.Max();
        var odds = logs.Select(log => Math.Exp(log - top)).ToArray();
        var sum = odds.Sum();
        return [.. odds.Select(one => one / sum)];
    }
}
