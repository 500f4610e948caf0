using Tightcold.Diagnosis.Priors;
using Tightcold.Loop.Results;

namespace Tightcold.Diagnosis.Inference;

/// <summary>Where the loop's solve of a car not yet run most likely ends: its unknowns as linear functions of the
/// coordinates, fitted to the likely cars run before.</summary>
/// <param name="centre">Coordinates that <paramref name="means"/> belong to.</param>
/// <param name="means">Three numbers a point.</param>
/// <param name="slopes">Of each of them by every coordinate.</param>
internal sealed class StartMap(double[] centre, double[] means, double[][] slopes)
{
    /// <summary>A guess for the car at a point, corrected by how far it was off at the point before.</summary>
    public LoopStart? At(ReadOnlySpan<double> z, int point, LoopStart? before)
    {
        if (double.IsNaN(means[3 * point]))
            return before;
        Span<double> at = stackalloc double[3];
        Guess(z, point, at);
        if (before is not { } found || double.IsNaN(means[3 * (point - 1)]))
            return new(at[0], at[1], at[2]);
        Span<double> previous = stackalloc double[3];
        Guess(z, point - 1, previous);
        return new(
            at[0] + found.LogSuction - previous[0],
            at[1] + found.LogDischarge - previous[1],
            at[2] + found.OutletEnthalpy - previous[2]
        );
    }

    private void Guess(ReadOnlySpan<double> z, int point, Span<double> at)
    {
        for (var j = 0; j < 3; j++)
        {
            var i = (3 * point) + j;
            var sum = means[i];
            for (var k = 0; k < Coordinate.Count; k++)
                sum += slopes[i][k] * (z[k] - centre[k]);
            at[j] = sum;
        }
    }
}
