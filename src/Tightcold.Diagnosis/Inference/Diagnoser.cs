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
    // An explanation that cannot reach these odds any more is not refined.
    private const double WorthRefining = 0.01;
    private const int ScreeningRounds = 2;

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
    /// Few prior points may all miss the cars that fit, and then an explanation looks far too unlikely. So whatever could
    /// still be likely, given how few points speak for it, gets small batches first; then the batches go where the odds'
    /// error is largest.
    /// </summary>
    private static void Refine(HypothesisRun[] runs, Effort effort)
    {
        var left = effort.Budget;
        for (var round = 0; round < ScreeningRounds; round++)
        {
            var top = runs.Max(run => Math.Log(run.Hypothesis.Prior) + run.LogEvidence);
            foreach (var run in runs)
            {
                if (run.Hypothesis.IsNoneOfThese || left <= 0) continue;
                if (Math.Log(run.Hypothesis.Prior) + run.LogEvidence + Benefit(run.Particles.Effective) - top < Math.Log(WorthRefining)) continue;
                run.Refine(effort.Batch / 2);
                left -= effort.Batch / 2;
            }
        }

        while (left > 0)
        {
            var odds = Odds(runs);
            var (worst, error) = (-1, effort.OddsError);
            for (var h = 0; h < runs.Length; h++)
            {
                if (runs[h].Hypothesis.IsNoneOfThese) continue;
                var own = odds[h] * (1 - odds[h]) * runs[h].RelativeError;
                if (own > error) (worst, error) = (h, own);
                // However sure the fault, its charge and severity want a crowd too.
                if (odds[h] > 0.5 && runs[h].Particles.Effective < 2 * LeastEffective && worst < 0) worst = h;
            }

            if (worst < 0) return;
            runs[worst].Refine(effort.Batch);
            left -= effort.Batch;
        }
    }

    /// <summary>ln of how much too small the evidence may be.</summary>
    private static double Benefit(double effective) => effective < 3 ? 7 : effective < 6 ? 4 : effective < 12 ? 1.5 : 0.5;

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
