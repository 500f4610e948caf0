using Tightcold.Diagnosis.Inference;
using Tightcold.Diagnosis.Measurement;
using Tightcold.Diagnosis.Priors;
using Tightcold.Loop.Designs;

namespace Tightcold.Published;

/// <summary>One chart as one car: what its traits may be, as weighted points under the population they were drawn
/// by.</summary>
internal sealed class ChartCar
{
    private const int First = 240,
        Batch = 240,
        MostRounds = 10;
    private const double Wanted = 150;

    private readonly double[][] points;
    private readonly double[] logLikelihoodAndProposal;

    private ChartCar(string maker, string name, double[][] points, double[] logs, double effective)
    {
        (Maker, Name, this.points, logLikelihoodAndProposal, Effective) = (maker, name, points, logs, effective);
    }

    public string Maker { get; }

    public string Name { get; }

    public double Effective { get; }

    public int Count => points.Length;

    public double[] Point(int i) => points[i];

    /// <summary>ln of the weight under the population it was drawn by.</summary>
    public double LogWeight(int i) => logLikelihoodAndProposal[i];

    public static ChartCar Of(IReadOnlyList<PublishedRow> rows, Population population, ulong seed)
    {
        var evidence = new DiagnosisEvidence(Question.Car(rows[0])) { Points = [.. rows.Select(Question.ForFit)] };
        var data = new DataModel(evidence);
        var simulator = new CarSimulator(evidence.Car, hidden: false, population);
        var run = new HypothesisRun(new(Hypothesis.NothingWrong, [], 1), simulator, data, seed);
        run.First(PointSequence.Normal(First, Coordinate.Count, new Chance(seed)), First);
        for (var round = 0; round < MostRounds && run.Particles.Effective < Wanted; round++)
            run.Refine(Batch);
        var kept = Enumerable
            .Range(0, run.Particles.Count)
            .Where(run.Particles.Closed)
            .Where(i => double.IsFinite(run.Particles.LogWeight(i)))
            .ToArray();
        return new(
            rows[0].Maker,
            rows[0].Source,
            [.. kept.Select(i => run.Particles.Point(i).ToArray())],
            [.. kept.Select(i => run.Particles.LogWeight(i))],
            run.Particles.Effective
        );
    }
}
