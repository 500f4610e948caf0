namespace Tightcold.Numerics.Sampling;

/// <summary>
/// Evidence and posterior samples of a small model by adaptive multiple importance sampling (Cornuet, Marin, Mira and
/// Robert, Scandinavian Journal of Statistics 39 (2012) 798): prior points first, then a normal proposal refitted
/// each round, always mixed with the prior; all rounds share one mixture denominator. Repeatable for a seed.
/// </summary>
public static class EvidenceSampler
{
    private const int FirstRound = 450;
    private const int LaterRounds = 4;
    private const int RoundSize = 240;

    /// <summary>Share of every later round that stays prior, so that no corner is lost.</summary>
    private const double PriorShare = 0.15;

    /// <summary>The proposal is drawn wider than the fit, so that its tails cover the posterior's.</summary>
    private const double Widening = 1.35;

    /// <summary>Below this many effective points the weights are tempered before a refit.</summary>
    private const double LeastEffective = 25;

    public static WeightedSamples Run<TL>(TL likelihood, ulong seed)
        where TL : struct, ILogLikelihood
    {
        var d = likelihood.Dimensions;
        const int Total = FirstRound + LaterRounds * RoundSize;
        var stream = new SeededChance(seed);
        var points = new double[Total * d];
        var logLikelihood = new double[Total];
        var logPrior = new double[Total];
        var fitted = new double[Total];
        var logTarget = new double[Total];
        var fits = new List<NormalFit>(LaterRounds);
        var done = 0;
        for (var round = 0; round <= LaterRounds; round++)
        {
            var fit = round == 0 ? null : NormalFit.Of(points, Tempered(logTarget.AsSpan(0, done)), done, d, Widening);
            if (round > 0 && fit is null)
                break;
            if (fit is not null)
                fits.Add(fit);
            var size = round == 0 ? FirstRound : RoundSize;
            for (var i = 0; i < size; i++)
            {
                var at = points.AsSpan((done + i) * d, d);
                if (fit is null || i < PriorShare * size)
                    for (var k = 0; k < d; k++)
                        at[k] = stream.Normal();
                else
                    fit.Draw(stream, at);
                logPrior[done + i] = NormalFit.LogStandard(at);
                logLikelihood[done + i] = likelihood.Evaluate(at);
            }
            // Old points get the new proposal's density, new points get all of them.
            if (fit is not null)
                for (var i = 0; i < done; i++)
                    fitted[i] += Math.Exp(fit.LogDensity(points.AsSpan(i * d, d)));
            for (var i = done; i < done + size; i++)
                foreach (var known in fits)
                    fitted[i] += Math.Exp(known.LogDensity(points.AsSpan(i * d, d)));
            done += size;
            Reweigh(logPrior, logLikelihood, fitted, logTarget, done, fits.Count);
        }
        return Finish(points, d, logTarget, done);
    }

    /// <summary>ln of prior × likelihood over the mixture of all rounds' proposals.</summary>
    private static void Reweigh(
        double[] logPrior,
        double[] logLikelihood,
        double[] fitted,
        double[] logTarget,
        int done,
        int fits
    )
    {
        var priorShare = (FirstRound + fits * RoundSize * PriorShare) / done;
        var fitShare = RoundSize * (1 - PriorShare) / done;
        for (var i = 0; i < done; i++)
            logTarget[i] =
                logPrior[i] + logLikelihood[i] - Math.Log(priorShare * Math.Exp(logPrior[i]) + fitShare * fitted[i]);
    }

    /// <summary>Weights for a refit: softened until enough points carry them.</summary>
    private static double[] Tempered(ReadOnlySpan<double> logTarget)
    {
        var weights = new double[logTarget.Length];
        for (var power = 1.0; ; power *= 0.6)
        {
            var top = double.NegativeInfinity;
            foreach (var value in logTarget)
                if (value > top)
                    top = value;
            double sum = 0,
                squares = 0;
            for (var i = 0; i < weights.Length; i++)
            {
                weights[i] = double.IsNegativeInfinity(top) ? 0 : Math.Exp(power * (logTarget[i] - top));
                sum += weights[i];
                squares += weights[i] * weights[i];
            }
            if (!(sum > 0))
                return weights;
            if (sum * sum / squares < LeastEffective && power > 1e-4)
                continue;
            for (var i = 0; i < weights.Length; i++)
                weights[i] /= sum;
            return weights;
        }
    }

    private static WeightedSamples Finish(double[] points, int d, double[] logTarget, int done)
    {
        var top = double.NegativeInfinity;
        for (var i = 0; i < done; i++)
            if (logTarget[i] > top)
                top = logTarget[i];
        var weights = new double[done];
        if (double.IsNegativeInfinity(top))
            return new(top, d, points[..(done * d)], weights);
        var sum = 0.0;
        for (var i = 0; i < done; i++)
            sum += weights[i] = Math.Exp(logTarget[i] - top);
        for (var i = 0; i < done; i++)
            weights[i] /= sum;
        return new(top + Math.Log(sum / done), d, points[..(done * d)], weights);
    }
}
