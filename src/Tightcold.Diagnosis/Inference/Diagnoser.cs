using Tightcold.Diagnosis.Measurement;
using Tightcold.Diagnosis.Priors;
using Tightcold.Loop.Designs;

namespace Tightcold.Diagnosis.Inference;

/// <summary>
/// From readings to odds over faults: each explanation is tried on many cars that the label allows, by the loop model;
/// the cars are weighted by how well they explain the readings. Importance sampling with a common first set of points,
/// refined where the answer hangs on it. The same evidence and seed give the same answer, bit for bit.
/// Method and figures: docs/physics/diagnosis.md.
/// </summary>
public static class Diagnoser
{
    // How much too unlikely, in nats, few effective points make an explanation look; found on the study's cars: in the
    // middle 3.4 with three of them, 1.0 with eight, 0.2 with twenty.
    private const double MissedAtOne = 25;
    private const double MostMissed = 10;

    // In handing out batches, beside the known error; found on the same cars: with all of it the root mean square error
    // of the odds was 0.0101, with this 0.0097.
    private const double MissedCounts = 0.4;

    // Too little refrigerant is every other car: what its first points miss hurts most, so it gets more of them.
    private const double OftenAtFault = 0.15;
    private const int FirstPointsOfOften = 3;

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
        return Diagnose(evidence, effort, seed, Population.Shipped);
    }

    /// <summary>The same with another population of sound cars: what a fit leaves out in turn.</summary>
    internal static FaultOdds Diagnose(DiagnosisEvidence evidence, Effort effort, ulong seed, Population population)
    {
        EvidenceCheck.Finite(evidence);
        var (kept, contradictions) = Contradictions.Of(evidence);
        var memory = CarMemory.Of(kept, effort, seed, population);
        var data = new DataModel(kept, memory);
        var simulator = new CarSimulator(kept.Car, data.HiddenIsSound, population, memory);
        var hypotheses = HypothesisSet.For(kept.Car, kept.Why, kept.SoundBefore);
        var runs = hypotheses
            .Select((hypothesis, h) => new HypothesisRun(hypothesis, simulator, data, seed + ((ulong)(h + 1) << 32)))
            .ToArray();
        var common = PointSequence.Normal(effort.FirstPoints, Coordinate.Count, new Chance(seed));
        var more = FirstPointsOfOften * effort.FirstPoints;
        var commonOfOften = PointSequence.Normal(more, Coordinate.Count, new Chance(seed + 1));
        foreach (var run in runs)
        {
            if (run.Hypothesis.IsNoneOfThese)
                continue;
            if (run.Hypothesis.Prior > OftenAtFault)
                run.First(commonOfOften, more);
            else
                run.First(common, effort.FirstPoints);
        }

        Refine(runs, effort);
        return Summary.Of(new Posterior(runs, simulator, data), contradictions, Uncertain);
    }

    /// <summary>
    /// Few points may all miss the cars that fit, and then an explanation looks far too unlikely; a dozen such together
    /// lift the leading one. So each batch goes where it takes most off what the odds may be wrong by: what is likely
    /// missed, and the standard error.
    /// </summary>
    private static void Refine(HypothesisRun[] runs, Effort effort)
    {
        double left = effort.Work;
        var missed = new double[runs.Length];
        var variance = new double[runs.Length];
        while (left > 0)
        {
            var odds = Odds(runs);
            for (var h = 0; h < runs.Length; h++)
            {
                if (runs[h].Hypothesis.IsNoneOfThese)
                    continue;
                missed[h] = Missed(odds[h], runs[h].Particles.Effective);
                variance[h] = Math.Pow(odds[h] * (1 - odds[h]) * runs[h].RelativeError, 2);
            }

            var error = Math.Sqrt(variance.Sum());
            var next =
                error + missed.Sum() > effort.OddsError
                    ? MostGain(runs, missed, variance, error, effort)
                    : Crowded(runs, odds);
            if (next < 0)
                return;
            var before = runs[next].Work;
            runs[next].Refine(Batch(runs[next], effort));
            left -= runs[next].Work - before;
        }
    }

    private static int Batch(HypothesisRun run, Effort effort) =>
        Math.Max(effort.Batch, run.Particles.Count / BatchShare);

    /// <summary>Where a point more takes most off: a batch finds nearly all that was missed, and lowers the variance as
    /// the number of points grows. What is not tried by cars has neither.</summary>
    private static int MostGain(HypothesisRun[] runs, double[] missed, double[] variance, double error, Effort effort)
    {
        var (next, most) = (-1, 0.0);
        for (var h = 0; h < runs.Length; h++)
        {
            double count = runs[h].Particles.Count,
                batch = Batch(runs[h], effort);
            var gain = (MissedCounts * missed[h] / batch) + (error > 0 ? variance[h] / error / (count + batch) : 0);
            if (gain > most)
                (next, most) = (h, gain);
        }

        return next;
    }

    /// <summary>However sure the fault, its charge and severity want a crowd too.</summary>
    private static int Crowded(HypothesisRun[] runs, double[] odds)
    {
        for (var h = 0; h < runs.Length; h++)
            if (!runs[h].Hypothesis.IsNoneOfThese && odds[h] > 0.5 && runs[h].Particles.Effective < 2 * LeastEffective)
                return h;
        return -1;
    }

    /// <summary>What the odds are likely to be short of with so few effective points.</summary>
    private static double Missed(double odds, double effective)
    {
        var factor = Math.Exp(Math.Min(MostMissed, MissedAtOne / Math.Pow(effective, 1.5)));
        return (odds * factor / (1 + (odds * (factor - 1)))) - odds;
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
