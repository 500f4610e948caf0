using Tightcold.Diagnosis.Measurement;
using Tightcold.Diagnosis.Priors;
using Tightcold.Numerics.Matrices;

namespace Tightcold.Diagnosis.Inference;

/// <summary>
/// Where to look next: the modelled data are fitted as a linear function of the coordinates over the likely points
/// (ridge regression), and the normal posterior of that linear model is the proposal. A poor fit only costs efficiency,
/// never the answer, because every point is weighted by the true density over the true mixture.
/// </summary>
internal static class ProposalFit
{
    private const int D = Coordinate.Count;

    // Twenty-five slopes want more than a handful of points: of all tried, the fit rests on at least this share, at
    // most so many effective ones.
    private const double FitShare = 0.25;
    private const double FitMost = 120;

    // Where the roulette dropped most, on so many of those left.
    private const double FitOfWhole = 0.8;
    private const double Ridge = 0.5;

    // Of fewer cars of a kind no fit is made.
    private const int LeastOfKind = 8;

    // Exactly the linear model's width. In 25 dimensions even 1.15 times it wastes two points of three; what the tails
    // need comes from the prior's share of each batch.
    private const double Width = 1;

    // A matrix this near to having no inverse makes no proposal.
    internal const double LeastPivot = 1e-12;

    /// <param name="only">The kind of circuit that the fit is for; null for all.</param>
    /// <param name="anchored">Fit round the likeliest point rather than round the middle of the likely ones.</param>
    public static CarFit Of(DataModel data, ParticleStore particles, bool anchored, KindRange? only)
    {
        var weights = Tempered(particles, only, out var best);
        if (weights is null)
            return default;
        var effective = 1 / weights.Sum(w => w * w);
        var centre = new double[D];
        for (var i = 0; i < particles.Count; i++)
        for (var k = 0; k < D; k++)
            centre[k] += weights[i] * particles.Point(i)[k];
        var gram = new double[D * D];
        for (var i = 0; i < particles.Count; i++)
        {
            if (weights[i] <= 0)
                continue;
            var z = particles.Point(i);
            for (var k = 0; k < D; k++)
            for (var l = 0; l <= k; l++)
                gram[(k * D) + l] += effective * weights[i] * (z[k] - centre[k]) * (z[l] - centre[l]);
        }

        for (var k = 0; k < D; k++)
            gram[(k * D) + k] += Ridge;

        if (!Cholesky.TryFactor(gram, D, LeastPivot))
            return default;
        var weighing = new Weighing(weights, effective, centre, gram);
        return new(
            Posterior(data, particles, weighing, best, anchored, only is not null),
            Starts(data, particles, weighing)
        );
    }

    private static StartMap Starts(DataModel data, ParticleStore particles, in Weighing weighing)
    {
        var means = new double[3 * data.PointCount];
        var slopes = new double[means.Length][];
        for (var a = 0; a < means.Length; a++)
        {
            var column = (a / 3 * Predicted.Width) + Predicted.Start + (a % 3);
            (means[a], slopes[a]) = Line(particles, weighing, i => particles.Row(i)[column]);
        }

        return new StartMap(weighing.Centre, means, slopes);
    }

    /// <summary>Mean and slopes of a modelled number over the likely points.</summary>
    private static (double Mean, double[] Slopes) Line(
        ParticleStore particles,
        in Weighing weighing,
        Func<int, double> number
    )
    {
        var (weights, centre) = (weighing.Weights, weighing.Centre);
        var numbers = new double[particles.Count];
        var mean = 0.0;
        for (var i = 0; i < numbers.Length; i++)
            if (weights[i] > 0)
                mean += weights[i] * (numbers[i] = number(i));
        var cross = new double[D];
        for (var i = 0; i < particles.Count; i++)
        {
            if (weights[i] <= 0)
                continue;
            var y = numbers[i] - mean;
            var z = particles.Point(i);
            for (var k = 0; k < D; k++)
                cross[k] += weighing.Effective * weights[i] * y * (z[k] - centre[k]);
        }

        Cholesky.Solve(weighing.Factor, cross);
        return (mean, cross);
    }

    private static NormalProposal? Posterior(
        DataModel data,
        ParticleStore particles,
        in Weighing weighing,
        int best,
        bool anchored,
        bool oneKind
    )
    {
        var f = data.Features;
        if (f == 0)
            return null;
        var slopes = new double[f][];
        var covariance = new double[f * f];
        var off = new double[f];
        for (var a = 0; a < f; a++)
        {
            var feature = a;
            (var mean, slopes[a]) = Line(particles, weighing, i => data.Feature(feature, particles.Row(i)).Modelled);
            if (oneKind)
                slopes[a][Coordinate.Kind] = 0;
            var left = Residual(data, particles, weighing.Weights, weighing.Centre, slopes[a], a, mean);
            var (read, atBest) = data.Feature(a, particles.Row(best));
            var from = anchored ? atBest : mean;
            var centreOf = anchored ? particles.Point(best) : weighing.Centre;
            off[a] = read - from;
            for (var k = 0; k < D; k++)
                off[a] += slopes[a][k] * centreOf[k];
            for (var b = 0; b <= a; b++)
                covariance[(a * f) + b] = covariance[(b * f) + a] = data.Covariance(a, b);
            // A datum that even the likeliest point misses by far is taken for a misread.
            var variance = covariance[(a * f) + a];
            var miss = (read - atBest) * (read - atBest) / variance;
            covariance[(a * f) + a] += left + (miss > 6 ? variance * miss / 5 : 0);
        }

        return Combine(slopes, covariance, off, f);
    }

    /// <summary>Precision I + Aᵀ R⁻¹ A, mean its inverse times Aᵀ R⁻¹ (y − a).</summary>
    private static NormalProposal? Combine(double[][] slopes, double[] covariance, double[] off, int f)
    {
        var root = Scaled(covariance, f, out var scale);
        if (!Cholesky.TryFactor(root, f, LeastPivot))
            return null;
        var precision = new double[D * D];
        var right = new double[D];
        var solved = new double[D][];
        for (var k = 0; k < D; k++)
        {
            solved[k] = new double[f];
            for (var a = 0; a < f; a++)
                solved[k][a] = slopes[a][k] / scale[a];
            Cholesky.Solve(root, solved[k]);
        }

        for (var k = 0; k < D; k++)
        {
            for (var l = 0; l < D; l++)
            for (var a = 0; a < f; a++)
                precision[(k * D) + l] += solved[k][a] * slopes[a][l] / scale[a];
            precision[(k * D) + k] += 1;
            for (var a = 0; a < f; a++)
                right[k] += solved[k][a] * off[a] / scale[a];
        }

        if (!Cholesky.TryFactor(precision, D, LeastPivot))
            return null;
        Cholesky.Solve(precision, right);
        return new(right, precision, D, Width);
    }

    /// <summary>Pascals and kelvins side by side: to unit diagonal before factoring.</summary>
    private static double[] Scaled(double[] covariance, int f, out double[] scale)
    {
        var roots = new double[f];
        for (var a = 0; a < f; a++)
            roots[a] = Math.Sqrt(covariance[(a * f) + a]);
        var scaled = new double[f * f];
        for (var a = 0; a < f; a++)
        for (var b = 0; b < f; b++)
            scaled[(a * f) + b] = covariance[(a * f) + b] / (roots[a] * roots[b]);
        scale = roots;
        return scaled;
    }

    private static double Residual(
        DataModel data,
        ParticleStore particles,
        double[] weights,
        double[] centre,
        double[] slope,
        int feature,
        double mean
    )
    {
        var sum = 0.0;
        for (var i = 0; i < particles.Count; i++)
        {
            if (weights[i] <= 0)
                continue;
            var r = data.Feature(feature, particles.Row(i)).Modelled - mean;
            var z = particles.Point(i);
            for (var k = 0; k < D; k++)
                r -= slope[k] * (z[k] - centre[k]);
            sum += weights[i] * r * r;
        }

        return sum;
    }

    /// <summary>Weights raised to the largest power up to 1 that leaves enough points in play; null without
    /// any.</summary>
    private static double[]? Tempered(ParticleStore particles, KindRange? only, out int best)
    {
        var weights = new double[particles.Count];
        var logs = new double[particles.Count];
        var (count, whole) = (0, 0);
        best = -1;
        for (var i = 0; i < logs.Length; i++)
        {
            logs[i] = double.NegativeInfinity;
            if (only is { } range && !range.Holds(particles.Point(i)[Coordinate.Kind]))
                continue;
            count++;
            if (particles.Whole(i))
                whole++;
            if (!particles.Closed(i))
                continue;
            logs[i] = particles.LogWeight(i);
            if (best < 0 || logs[i] > logs[best])
                best = i;
        }

        if (best < 0 || (only is not null && whole < LeastOfKind))
            return null;
        var least = Math.Min(Math.Clamp(FitShare * count, 4, FitMost), FitOfWhole * whole);
        for (var power = 1.0; power > 1e-4; power *= 0.65)
        {
            double sum = 0,
                squares = 0;
            for (var i = 0; i < weights.Length; i++)
            {
                weights[i] = Math.Exp(power * (logs[i] - logs[best]));
                sum += weights[i];
                squares += weights[i] * weights[i];
            }

            if (!(sum > 0))
                return null;
            if (sum * sum / squares < least)
                continue;
            for (var i = 0; i < weights.Length; i++)
                weights[i] /= sum;
            return weights;
        }

        return null;
    }

    /// <summary>The likely points: tempered weights that sum to 1, what they are worth, their middle, and the factor of
    /// the ridge regression's matrix about it.</summary>
    private readonly record struct Weighing(double[] Weights, double Effective, double[] Centre, double[] Factor);
}
