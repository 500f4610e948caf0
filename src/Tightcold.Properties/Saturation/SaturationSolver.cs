using Tightcold.Properties.Helmholtz;

namespace Tightcold.Properties.Saturation;

/// <summary>
/// Saturation on one isotherm: the liquid and vapour densities of equal pressure and equal Gibbs energy,
/// by Newton's method in both densities. The guesses come from ancillaries and series that are close everywhere on
/// the line, so the steps are bare. What it cannot see: farther than a tenth off, it may settle on a pair of stretches
/// inside the dome that are stable by the equation and belong to no phase.
/// </summary>
internal static class SaturationSolver
{
    private const int MaxIterations = 20;

    // Steps that no longer shrink below this size are rounding noise of the equation, not progress.
    private const double NoiseStep = 1e-5;

    // A millionth of the critical temperature below the critical point, as near as is asked, phases are still twice
    // this apart.
    private const double LeastGap = 1e-3;

    /// <summary>Refines the two guesses until a step is below <paramref name="lastStep"/>; false with the last step
    /// size where it does not settle on two distinct phases.</summary>
    public static bool TrySolve(
        in Isotherm isotherm,
        ref double liquid,
        ref double vapour,
        double lastStep,
        out double residual
    )
    {
        var previous = double.PositiveInfinity;
        residual = previous;
        for (var i = 0; i < MaxIterations; i++)
        {
            var l = isotherm.Density(liquid);
            var v = isotherm.Density(vapour);
            double stiffL = l.Stiffness,
                stiffV = v.Stiffness;
            // Inside the spinodal a density belongs to no phase.
            if (!(stiffL > 0 && stiffV > 0))
                return false;

            // With p reduced by rho_r R T and g by R T: dp/ddelta = K, dg/ddelta = K/delta.
            var pressureGap = (vapour * v.Compressibility) - (liquid * l.Compressibility);
            var gibbsGap = l.D + l.A - v.D - v.A + Math.Log(liquid / vapour);
            var stepV = (gibbsGap + (pressureGap / liquid)) / (stiffV * ((1 / vapour) - (1 / liquid)));
            var stepL = (pressureGap + (stiffV * stepV)) / stiffL;
            residual = Math.Max(Math.Abs(stepL) / liquid, Math.Abs(stepV) / vapour);
            liquid += stepL;
            vapour += stepV;
            // In each other's place, or nearing one root twice.
            if (!(liquid - vapour > LeastGap))
                return false;
            if (residual < lastStep || (residual < NoiseStep && residual >= previous))
                return true;
            previous = residual;
        }

        return false;
    }
}
