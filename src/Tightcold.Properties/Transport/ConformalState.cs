using System.Runtime.CompilerServices;
using Tightcold.Properties.Helmholtz;

namespace Tightcold.Properties.Transport;

/// <summary>
/// The state of a reference fluid that corresponds to a state of another: equal residual Helmholtz energy and equal
/// compressibility (the exact shape factors of extended corresponding states).
/// </summary>
internal readonly record struct ConformalState(double TemperatureK, double DensityMolPerM3)
{
    private const int MaxIterations = 60;

    // Both residuals are dimensionless; 1e-12 is rounding.
    private const double Tolerance = 1e-12;

    /// <summary>Newton with halved steps from simple corresponding states; null where it finds no such state.</summary>
    [SkipLocalsInit]
    public static ConformalState? Find(
        Fluid reference,
        double residualEnergy,
        double compressibility,
        double guessTemperatureK,
        double guessDensityMolPerM3
    )
    {
        var equation = reference.Definition.Equation;
        var molarReducing = equation.ReducingDensityKgPerM3 / reference.MolarMassKgPerMol;
        Span<double> work = stackalloc double[ResidualPart.MaxWork];
        double temperature = guessTemperatureK,
            delta = guessDensityMolPerM3 / molarReducing;
        var size = double.PositiveInfinity;
        for (var i = 0; i < MaxIterations; i++)
        {
            var values = Evaluate(equation, temperature, delta, work);
            double r0 = values.A - residualEnergy,
                r1 = 1 + values.D - compressibility;
            size = Math.Sqrt((r0 * r0) + (r1 * r1));
            if (size < Tolerance)
                return new ConformalState(temperature, delta * molarReducing);

            // In ln T and ln delta: dA/dlnT = -T, dA/dln delta = D, dZ/dlnT = -DT, dZ/dln delta = D + DD.
            double j00 = -values.T,
                j01 = values.D,
                j10 = -values.DT,
                j11 = values.D + values.DD;
            var determinant = (j00 * j11) - (j01 * j10);
            var stepT = ((-r0 * j11) + (r1 * j01)) / determinant;
            var stepD = ((-j00 * r1) + (j10 * r0)) / determinant;
            if (!double.IsFinite(stepT) || !double.IsFinite(stepD))
                return null;
            var share = Math.Min(1, 0.5 / Math.Max(Math.Abs(stepT), Math.Abs(stepD)));
            var improved = false;
            for (; share > 1e-4; share *= 0.5)
            {
                double t = temperature * Math.Exp(share * stepT),
                    d = delta * Math.Exp(share * stepD);
                var next = Evaluate(equation, t, d, work);
                var nextSize = Math.Sqrt(Square(next.A - residualEnergy) + Square(1 + next.D - compressibility));
                if (nextSize < size)
                {
                    (temperature, delta) = (t, d);
                    improved = true;
                    break;
                }
            }

            // Rounding stops the progress of a state already found.
            if (!improved)
                break;
        }

        return size < 1e-9 ? new ConformalState(temperature, delta * molarReducing) : null;
    }

    private static HelmholtzValues Evaluate(
        HelmholtzEquation equation,
        double temperature,
        double delta,
        Span<double> work
    )
    {
        var tau = equation.ReducingTemperatureK / temperature;
        equation.Residual.PrepareTemperature(tau, Math.Log(tau), withDerivatives: true, work);
        return equation.Residual.Evaluate(delta, tau, work);
    }

    private static double Square(double x) => x * x;
}
