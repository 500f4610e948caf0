using Tightcold.Diagnosis.Priors;

namespace Tightcold.Diagnosis.Inference;

/// <summary>
/// The points tried for one explanation: coordinates, modelled numbers, likelihoods and importance weights. All rounds
/// share one denominator, the mixture of what they were drawn from (balance heuristic, Veach and Guibas 1995; as in
/// adaptive multiple importance sampling, Cornuet et al. 2012, Scand. J. Stat. 39, 798).
/// </summary>
internal sealed class ParticleStore(int row)
{
    private const int D = Coordinate.Count;
    private static readonly double LogRoot = -0.5 * D * Math.Log(2 * Math.PI);

    private readonly List<KindProposal> proposals = [];
    private readonly List<int> drawnFrom = [];
    private double[] points = [];
    private double[] rows = [];
    private double[] logLikelihood = [];
    private double[] standsFor = [];
    private double[] logPrior = [];
    private double[] logWeight = [];
    private double[][] logProposal = [];
    private int fromPrior;
    private int closed;

    public int Count { get; private set; }

    /// <summary>Index of the heaviest point; -1 without any.</summary>
    public int Best { get; private set; } = -1;

    /// <summary>ln of the evidence: the mean weight.</summary>
    public double LogEvidence { get; private set; } = double.NegativeInfinity;

    /// <summary>Number of points that the weights are worth (Kish).</summary>
    public double Effective { get; private set; }

    public int Rounds => proposals.Count;

    public int NotClosed => Count - closed;

    public ReadOnlySpan<double> Point(int i) => points.AsSpan(i * D, D);

    public ReadOnlySpan<double> Row(int i) => rows.AsSpan(i * row, row);

    public double LogWeight(int i) => logWeight[i];

    public double LogLikelihood(int i) => logLikelihood[i];

    public bool Closed(int i) => !double.IsNaN(logLikelihood[i]);

    /// <summary>How many points of the prior this one stands for: 0 for one of a proposal, and for one that was not run
    /// at all points of the evidence.</summary>
    public double PriorWeight(int i) => drawnFrom[i] < 0 ? standsFor[i] : 0;

    /// <summary>Whether it was run at all points of the evidence.</summary>
    public bool Whole(int i) => standsFor[i] > 0;

    /// <summary>Room for more points; the caller fills coordinates and rows, then calls <see cref="Settle"/>.</summary>
    public void Grow(int more)
    {
        var to = Count + more;
        Array.Resize(ref points, to * D);
        Array.Resize(ref rows, to * row);
        Array.Resize(ref logLikelihood, to);
        Array.Resize(ref standsFor, to);
        Array.Resize(ref logPrior, to);
        Array.Resize(ref logWeight, to);
        for (var r = 0; r < logProposal.Length; r++)
            Array.Resize(ref logProposal[r], to);
    }

    public Span<double> NewPoint(int i) => points.AsSpan(i * D, D);

    public Span<double> NewRow(int i) => rows.AsSpan(i * row, row);

    /// <summary>Run to the end.</summary>
    /// <param name="kept">Chance with which it came that far.</param>
    public void SetLikelihood(int i, double value, double kept) =>
        (logLikelihood[i], standsFor[i]) = (value - Math.Log(kept), 1 / kept);

    /// <summary>Not run to the end: others stand for it.</summary>
    public void Drop(int i) => (logLikelihood[i], standsFor[i]) = (double.NegativeInfinity, 0);

    /// <summary>The model found no steady state for it.</summary>
    public void SetNotClosed(int i) => (logLikelihood[i], standsFor[i]) = (double.NaN, 0);

    /// <summary>Takes in points from the old count on: the first <paramref name="prior"/> of them drawn from the prior,
    /// the others from <paramref name="proposal"/>.</summary>
    public void Settle(int more, int prior, KindProposal? proposal)
    {
        var from = Count;
        Count += more;
        fromPrior += prior;
        if (proposal is not null)
        {
            proposals.Add(proposal);
            logProposal = [.. logProposal, new double[Count]];
            for (var i = 0; i < from; i++)
                logProposal[^1][i] = proposal.LogDensity(Point(i), logPrior[i]);
        }

        for (var i = from; i < Count; i++)
        {
            drawnFrom.Add(i - from < prior ? -1 : proposals.Count - 1);
            var sum = 0.0;
            foreach (var x in Point(i))
                sum += x * x;
            logPrior[i] = LogRoot - (0.5 * sum);
            for (var r = 0; r < proposals.Count; r++)
                logProposal[r][i] = proposals[r].LogDensity(Point(i), logPrior[i]);
            if (Closed(i))
                closed++;
        }

        Reweigh();
    }

    /// <summary>Weights that sum to 1.</summary>
    public double[] Weights()
    {
        var weights = new double[Count];
        if (Best < 0)
            return weights;
        var sum = 0.0;
        for (var i = 0; i < Count; i++)
            if (Closed(i))
                sum += weights[i] = Math.Exp(logWeight[i] - logWeight[Best]);
        for (var i = 0; i < Count; i++)
            weights[i] /= sum;
        return weights;
    }

    private void Reweigh()
    {
        var drawn = new double[proposals.Count];
        foreach (var source in drawnFrom)
            if (source >= 0)
                drawn[source]++;
        Best = -1;
        for (var i = 0; i < Count; i++)
        {
            // Relative to the prior, so that the sum stays in range.
            var mixture = (double)fromPrior;
            for (var r = 0; r < proposals.Count; r++)
                mixture += drawn[r] * Math.Exp(Math.Min(600, logProposal[r][i] - logPrior[i]));
            logWeight[i] = logLikelihood[i] - Math.Log(mixture / Count);
            if (Closed(i) && (Best < 0 || logWeight[i] > logWeight[Best]))
                Best = i;
        }

        if (Best < 0)
            return;
        double sum = 0,
            squares = 0;
        for (var i = 0; i < Count; i++)
        {
            if (!Closed(i))
                continue;
            var w = Math.Exp(logWeight[i] - logWeight[Best]);
            sum += w;
            squares += w * w;
        }

        LogEvidence = logWeight[Best] + Math.Log(sum / closed);
        Effective = sum * sum / squares;
    }
}
