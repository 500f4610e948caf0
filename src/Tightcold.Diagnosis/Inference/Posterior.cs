using Tightcold.Diagnosis.Measurement;
using Tightcold.Diagnosis.Priors;

namespace Tightcold.Diagnosis.Inference;

/// <summary>The tried cars with their weights after the evidence: what every summary and every next test is made
/// of.</summary>
internal sealed class Posterior
{
    public Posterior(IReadOnlyList<HypothesisRun> runs, CarSimulator simulator, DataModel data)
    {
        Runs = runs;
        Simulator = simulator;
        Data = data;
        var top = runs.Max(run => Math.Log(run.Hypothesis.Prior) + run.LogEvidence);
        Odds = [.. runs.Select(run => Math.Exp(Math.Log(run.Hypothesis.Prior) + run.LogEvidence - top))];
        var sum = Odds.Sum();
        for (var h = 0; h < Odds.Length; h++)
            Odds[h] /= sum;
        Weights = [.. runs.Select(run => run.Particles.Weights())];
        var variance = runs.Select((run, h) => Math.Pow(Odds[h] * run.RelativeError, 2)).ToArray();
        var all = variance.Sum();
        // d P_h = P_h (e_h - sum P_g e_g), with errors of the evidences taken as independent.
        OddsErrors =
        [
            .. runs.Select(
                (run, h) => Math.Sqrt((Square(1 - Odds[h]) * variance[h]) + (Square(Odds[h]) * (all - variance[h])))
            ),
        ];
    }

    public IReadOnlyList<HypothesisRun> Runs { get; }

    public CarSimulator Simulator { get; }

    public DataModel Data { get; }

    public double[] Odds { get; }

    public double[] OddsErrors { get; }

    /// <summary>Odds as they would be by the readings alone: each tried car with its factor by the history taken
    /// off.</summary>
    public double[] OddsWithoutHistory()
    {
        if (Data.History is null)
            return Odds;
        var odds = new double[Odds.Length];
        for (var h = 0; h < odds.Length; h++)
        {
            var particles = Runs[h].Particles;
            double mean = Runs[h].Hypothesis.IsNoneOfThese ? 1 : 0;
            for (var i = 0; i < particles.Count; i++)
                if (Weights[h][i] > 0)
                    mean += Weights[h][i] / Data.HistoryFactor(particles.Row(i));
            odds[h] = Odds[h] * mean;
        }

        var sum = odds.Sum();
        return [.. odds.Select(one => one / sum)];
    }

    /// <summary>Weights of each explanation's points, summing to 1 within it.</summary>
    public double[][] Weights { get; }

    /// <summary>Charge over the label's with weights, over all explanations that have cars.</summary>
    public List<(double Value, double Weight)> ChargeShares()
    {
        var list = new List<(double, double)>();
        for (var h = 0; h < Runs.Count; h++)
            AddShares(list, h, Odds[h]);
        return list;
    }

    public List<(double Value, double Weight)> ChargeShares(int h)
    {
        var list = new List<(double, double)>();
        AddShares(list, h, 1);
        return list;
    }

    public double ChargeShareBelow(double share) => Interval.ShareBelow(ChargeShares(), share);

    /// <summary>Severity of the fault at a place in the explanation's list.</summary>
    public List<(double Value, double Weight)> Severities(int h, int place)
    {
        var (particles, hypothesis) = (Runs[h].Particles, Runs[h].Hypothesis);
        var list = new List<(double, double)>(particles.Count);
        for (var i = 0; i < particles.Count; i++)
            list.Add(
                (hypothesis.Faults[place].Severities.At(particles.Point(i)[FaultPrior.Place(place)]), Weights[h][i])
            );
        return list;
    }

    /// <summary>Modelled numbers of one datum under an explanation: fitted to all readings, or before any of
    /// them.</summary>
    public List<(double Value, double Weight)> Modelled(int h, in ReadingLikelihood.Item item, bool fitted)
    {
        var particles = Runs[h].Particles;
        var list = new List<(double, double)>(particles.Count);
        for (var i = 0; i < particles.Count; i++)
        {
            var weight = fitted ? Weights[h][i] : particles.PriorWeight(i);
            if (weight > 0)
                list.Add((particles.Row(i)[(item.Point * Predicted.Width) + item.Channel], weight));
        }

        return list;
    }

    /// <summary>Where a sound car's reading would lie before any was taken: its modelled numbers, each with what the
    /// model itself is off by (a normal law on five nodes).</summary>
    public List<(double Value, double Weight)> Foretold(int h, in ReadingLikelihood.Item item)
    {
        var modelled = Modelled(h, item, fitted: false);
        var list = new List<(double, double)>(modelled.Count * Nodes.Length);
        var known = Math.Sqrt((Data.SharedModel?[item.Channel] ?? ErrorModel.SharedModel) + 1 - ErrorModel.SharedModel);
        foreach (var (value, weight) in modelled)
        {
            var sigma = known * ErrorModel.Discrepancy((Channel)item.Channel, value);
            foreach (var (z, share) in Nodes)
                list.Add((value + (sigma * z), weight * share));
        }

        return list;
    }

    // Gauss and Hermite's nodes for a standard normal law.
    private static readonly (double Z, double Share)[] Nodes =
    [
        (-2.856970, 0.011257),
        (-1.355626, 0.222076),
        (0, 0.533333),
        (1.355626, 0.222076),
        (2.856970, 0.011257),
    ];

    private void AddShares(List<(double, double)> list, int h, double odds)
    {
        var (particles, faults) = (Runs[h].Particles, Runs[h].Hypothesis.Faults);
        for (var i = 0; i < particles.Count; i++)
            list.Add(
                (
                    FaultPrior.ChargeShare(faults, particles.Point(i)[Coordinate.Charge], Simulator.HiddenIsSound),
                    odds * Weights[h][i]
                )
            );
    }

    private static double Square(double x) => x * x;
}
