using System.Collections.Immutable;
using Tightcold.Loop.Designs;
using Tightcold.Quantities;

namespace Tightcold.Loop.Calibration;

/// <summary>
/// A car whose traits earlier readings have narrowed: a normal distribution over the standard scores of
/// <see cref="DesignSpread.All"/>, where the class itself has mean 0 and deviation 1 in each.
/// </summary>
/// <param name="Class">The design of the car's class.</param>
/// <param name="Scores">Most likely scores.</param>
/// <param name="Deviations">Standard deviation of each score; never above 1.</param>
/// <param name="Readings">Readings that narrowed it; 0 where it is the class as before.</param>
/// <param name="Misfit">Mean square of what the readings are off the best fit, in their own deviations.</param>
/// <param name="Refusal">Why the readings were not used; null where they were or where there were none.</param>
public sealed record CalibratedCar(
    LoopDesign Class,
    ImmutableArray<double> Scores,
    ImmutableArray<double> Deviations,
    int Readings,
    double Misfit,
    [Said] string? Refusal
)
{
    private const double FurthestScore = 3;

    /// <summary>Column-wise factor that turns independent normals into scores about the mean; null for the class
    /// itself.</summary>
    internal double[][]? Factor { get; init; }

    /// <summary>The most likely car.</summary>
    public LoopDesign Design => DesignSpread.Apply(Class, [.. Scores]);

    /// <summary>A car from the distribution.</summary>
    /// <param name="normals">One standard normal for each trait.</param>
    public LoopDesign Draw(ReadOnlySpan<double> normals)
    {
        var scores = new double[Scores.Length];
        for (var i = 0; i < scores.Length; i++)
        {
            var off = 0.0;
            if (Factor is null)
                off = normals[i];
            else
                for (var k = 0; k < scores.Length; k++)
                    off += Factor[i][k] * normals[k];
            scores[i] = Math.Clamp(Scores[i] + off, -FurthestScore, FurthestScore);
        }

        return DesignSpread.Apply(Class, scores);
    }
}
