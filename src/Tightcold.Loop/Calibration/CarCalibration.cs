using Tightcold.Loop.Designs;
using Tightcold.Loop.Faults;
using Tightcold.Loop.Results;
using Tightcold.Numerics.Matrices;
using Tightcold.Quantities;

namespace Tightcold.Loop.Calibration;

/// <summary>
/// Narrows a car's class by readings taken while that car was sound. Standard scores have independent unit normals
/// before; the mode after the readings by Gauss and Newton's method with a shortened step, the spread about it by
/// Laplace's approximation: covariance (I + J'WJ)^-1. As J'WJ is never negative, no trait gets wider than its class.
/// Deterministic.
/// </summary>
public static class CarCalibration
{
    // What the model and the way the day was written down are off by, whatever the gauge: share of a pressure, K. It is
    // the same error for every reading of a channel, so more readings do not average it away.
    private const double PressureShare = 0.04;
    private const double TemperatureK = 1.5;

    // A fit whose readings are off by more than twice their deviation on average is no fit.
    private const double MostMisfit = 4;

    private const int MostSteps = 15;
    private const double Nudge = 0.1;
    private const double Settled = 1e-3;

    public static CalibratedCar Of(LoopDesign design, IReadOnlyList<HealthyPoint> points)
    {
        ArgumentNullException.ThrowIfNull(design);
        ArgumentNullException.ThrowIfNull(points);
        var class_ = Unchanged(design, 0, null);
        var usable = points.Where(point => Predict(design, point) is not null && !point.Readings.IsEmpty).ToList();
        var count = usable.Sum(point => point.Readings.Length);
        if (count == 0)
            return class_;
        var weights = Weights(usable);
        var scores = new double[DesignSpread.All.Length];
        if (Residuals(design, usable, scores) is not { } residuals)
            return class_;
        var system = System(design, usable, scores, residuals, weights);
        for (var step = 0; step < MostSteps && system is not null; step++)
        {
            var move = system.Value.Right;
            Cholesky.Solve(system.Value.Factor, move);
            var (moved, next) = Shorten(design, usable, weights, scores, residuals, move);
            if (next is null)
                break;
            var furthest = scores.Zip(moved, (a, b) => Math.Abs(a - b)).Max();
            (scores, residuals) = (moved, next);
            system = System(design, usable, scores, residuals, weights);
            if (furthest < Settled)
                break;
        }

        if (system is null)
            return class_;
        var misfit = residuals.Zip(weights, (r, w) => r * r * w).Sum() / count;
        if (misfit > MostMisfit)
            return Unchanged(
                design,
                misfit,
                "the earlier readings do not fit a sound car of this kind, so they were left out"
            );
        var factor = InverseFactor(system.Value.Factor, scores.Length);
        return new CalibratedCar(
            design,
            [.. scores],
            [.. factor.Select(row => Math.Sqrt(row.Sum(x => x * x)))],
            count,
            misfit,
            null
        )
        {
            Factor = factor,
        };
    }

    /// <summary>F with F F' = (L L')^-1: F = L'^-1, by rows.</summary>
    private static double[][] InverseFactor(double[] lower, int n)
    {
        var rows = new double[n][];
        for (var i = 0; i < n; i++)
            rows[i] = new double[n];
        for (var column = 0; column < n; column++)
        {
            var unit = new double[n];
            unit[column] = 1;
            Cholesky.Back(lower, unit);
            for (var i = 0; i < n; i++)
                rows[i][column] = unit[i];
        }

        return rows;
    }

    private static CalibratedCar Unchanged(LoopDesign design, double misfit, [Said] string? refusal) =>
        new(
            design,
            [.. new double[DesignSpread.All.Length]],
            [.. Enumerable.Repeat(1.0, DesignSpread.All.Length)],
            0,
            misfit,
            refusal
        );

    private static double[] Weights(List<HealthyPoint> points)
    {
        var each = points
            .SelectMany(point => point.Readings)
            .GroupBy(reading => reading.Channel)
            .ToDictionary(group => group.Key, group => group.Count());
        return
        [
            .. points
                .SelectMany(point => point.Readings)
                .Select(reading =>
                {
                    var model = reading.Channel is HealthyChannel.LowSide or HealthyChannel.HighSide
                        ? PressureShare * reading.Value
                        : TemperatureK;
                    return 1 / ((reading.Sigma * reading.Sigma) + (each[reading.Channel] * model * model));
                }),
        ];
    }

    private static LoopReadings? Predict(LoopDesign design, HealthyPoint point)
    {
        var charge = Math.Clamp(
            point.ChargeKg ?? design.LabelChargeKg,
            LoopLimits.MinChargeShare * design.LabelChargeKg,
            LoopLimits.MaxChargeShare * design.LabelChargeKg
        );
        return new LoopModel(design).Solve(point.Conditions, charge, LoopFaults.None).Readings;
    }

    /// <summary>Read less predicted; null where the model finds no state.</summary>
    private static double[]? Residuals(LoopDesign design, List<HealthyPoint> points, double[] scores)
    {
        var car = DesignSpread.Apply(design, scores);
        var all = new List<double>();
        foreach (var point in points)
        {
            if (Predict(car, point) is not { } readings)
                return null;
            all.AddRange(
                point.Readings.Select(reading => reading.Value - HealthyReading.Of(readings, reading.Channel))
            );
        }

        return [.. all];
    }

    private static double Objective(double[] scores, double[] residuals, double[] weights) =>
        scores.Sum(x => x * x) + residuals.Zip(weights, (r, w) => r * r * w).Sum();

    private static (double[] Scores, double[]? Residuals) Shorten(
        LoopDesign design,
        List<HealthyPoint> points,
        double[] weights,
        double[] scores,
        double[] residuals,
        double[] move
    )
    {
        var before = Objective(scores, residuals, weights);
        for (var share = 1.0; share > 0.02; share *= 0.5)
        {
            var moved = scores.Zip(move, (x, d) => Math.Clamp(x + (share * d), -4, 4)).ToArray();
            if (Residuals(design, points, moved) is { } next && Objective(moved, next, weights) < before)
                return (moved, next);
        }

        return (scores, null);
    }

    /// <summary>(I + J'WJ) d = J'Wr - x at the scores, the matrix as its factor; null where the model finds no state
    /// beside them.</summary>
    private static (double[] Factor, double[] Right)? System(
        LoopDesign design,
        List<HealthyPoint> points,
        double[] scores,
        double[] residuals,
        double[] weights
    )
    {
        var n = scores.Length;
        var slopes = new double[n][];
        for (var i = 0; i < n; i++)
        {
            var (up, down) = ((double[])scores.Clone(), (double[])scores.Clone());
            up[i] += Nudge;
            down[i] -= Nudge;
            if (Residuals(design, points, up) is not { } above || Residuals(design, points, down) is not { } below)
                return null;
            slopes[i] = [.. above.Zip(below, (a, b) => (b - a) / (2 * Nudge))];
        }

        var matrix = new double[n * n];
        var right = new double[n];
        for (var i = 0; i < n; i++)
        {
            right[i] = -scores[i];
            for (var r = 0; r < residuals.Length; r++)
                right[i] += slopes[i][r] * weights[r] * residuals[r];
            for (var j = 0; j < n; j++)
            {
                matrix[(i * n) + j] = i == j ? 1 : 0;
                for (var r = 0; r < residuals.Length; r++)
                    matrix[(i * n) + j] += slopes[i][r] * weights[r] * slopes[j][r];
            }
        }

        // All its eigenvalues are at least 1.
        return Cholesky.TryFactor(matrix, n) ? (matrix, right) : null;
    }
}
