using System.Collections.Immutable;
using Tightcold.Diagnosis.Priors;

namespace Tightcold.Diagnosis.Inference;

/// <summary>
/// Where a batch is drawn from: a normal distribution for each kind of circuit the car may have. Within a kind its
/// coordinate keeps the prior, because it has no effect there.
/// </summary>
/// <param name="parts">The kinds, each with its number of points in the batch and its fit.</param>
internal sealed class KindProposal(ImmutableArray<(KindRange Kind, int Count, CarFit Fit)> parts)
{
    private readonly double count = parts.Sum(part => part.Count);

    /// <summary>Standard normal coordinates of a batch's point become a point of this distribution, in place; gives
    /// where its solves begin.</summary>
    public StartMap? Place(int i, Span<double> at)
    {
        foreach (var (kind, many, fit) in parts)
        {
            if (i >= many)
            {
                i -= many;
                continue;
            }

            fit.Normal?.Place(at);
            if (parts.Length > 1)
                at[Coordinate.Kind] = kind.Press(at[Coordinate.Kind]);
            return fit.Starts;
        }

        return null;
    }

    public double LogDensity(ReadOnlySpan<double> at, double logPrior)
    {
        var share = parts.Length > 1 ? KindRange.Share(at[Coordinate.Kind]) : 1;
        foreach (var (kind, many, fit) in parts)
        {
            if (!kind.HoldsShare(share))
                continue;
            return (fit.Normal?.LogDensity(at) ?? logPrior) + Math.Log(many / (count * (kind.To - kind.From)));
        }

        return double.NegativeInfinity;
    }
}
