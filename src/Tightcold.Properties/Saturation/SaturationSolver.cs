using Tightcold.Properties.Helmholtz;

namespace Tightcold.Properties.Saturation;

/// <summary>
/// Saturation on one isotherm: the liquid and vapour densities of equal pressure and equal Gibbs energy,
/// by Newton's method in both densities.
/// </summary>
internal static class SaturationSolver
{
    private const int MaxIterations = 40;

    // Steps that no longer shrink below this size are rounding noise of the equation, not progress.
    private const double NoiseStep = 1e-5;

    /// <summary>Refines the two guesses until a step is below <paramref name="lastStep"/>; false with the last step size where it does not settle on two distinct phases.</summary>
    public static bool TrySolve(in Isotherm isotherm, ref double liquid, ref double vapour, double lastStep, out double residual)
    {
        var previous = double.PositiveInfinity;
        residual = previous;
        for (var i = 0; i < MaxIterations; i++)
        {
            var l = isotherm.Density(liquid);
            var v = isotherm.Density(vapour);
            double stiffL = l.Stiffness, stiffV = v.Stiffness;
            if (stiffL <= 0 || stiffV <= 0)
            {
                // Inside the spinodal: move the offender away from the middle.
                var gap = liquid - vapour;
                if (stiffL <= 0)
                    liquid += 0.1 * gap;
                if (stiffV <= 0)
                    vapour = Math.Max(vapour - (0.1 * gap), 0.5 * vapour);
                continue;
            }

            // With p reduced by rho_r R T and g by R T: dp/ddelta = K, dg/ddelta = K/delta.
            var pressureGap = (vapour * v.Compressibility) - (liquid * l.Compressibility);
            var gibbsGap = l.D + l.A - v.D - v.A + Math.Log(liquid / vapour);
            var stepV = (gibbsGap + (pressureGap / liquid)) / (stiffV * ((1 / vapour) - (1 / liquid)));
            var stepL = (pressureGap + (stiffV * stepV)) / stiffL;
            var newV = vapour + stepV;
            if (newV < 0.3 * vapour)
                newV = 0.3 * vapour;
            else if (newV > 3 * vapour)
                newV = 3 * vapour;
            var newL = liquid + Math.Clamp(stepL, -0.2 * liquid, 0.2 * liquid);
            if (!(newL > newV))
            {
                residual = 1;
                return false;
            }

            residual = Math.Max(Math.Abs(newL - liquid) / liquid, Math.Abs(newV - vapour) / vapour);
            liquid = newL;
            vapour = newV;
            if (residual < lastStep || (residual < NoiseStep && residual >= previous))
                return true;
            previous = residual;
        }

        return false;
    }
}
