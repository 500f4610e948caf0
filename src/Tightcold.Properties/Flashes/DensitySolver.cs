using Tightcold.Properties.Helmholtz;

namespace Tightcold.Properties.Flashes;

/// <summary>The density of one phase at a pressure on an isotherm: Newton's method kept inside a bracket.</summary>
internal static class DensitySolver
{
    private const int MaxIterations = 100;

    // Newton squares the error: after a step this small the next is below rounding.
    private const double LastStep = 1e-9;

    // No fluid here is served beyond this many times its reducing density.
    private const double MaxDelta = 8;

    /// <summary>False where it does not settle: a guess inside the spinodal with no density known whose pressure is
    /// above, or no such density at all.</summary>
    /// <param name="isotherm">The isotherm.</param>
    /// <param name="pressurePa">Pressure, Pa.</param>
    /// <param name="low">A reduced density whose pressure is not above the target (0 if none better is known).</param>
    /// <param name="high">A reduced density whose pressure is not below the target, or infinity.</param>
    /// <param name="delta">In: guess. Out: the reduced density.</param>
    /// <param name="residual">Relative size of the last step.</param>
    public static bool TrySolve(
        in Isotherm isotherm,
        double pressurePa,
        double low,
        double high,
        ref double delta,
        out double residual
    )
    {
        var target = pressurePa / isotherm.PressureScalePa;
        residual = double.PositiveInfinity;
        for (var i = 0; i < MaxIterations; i++)
        {
            var values = isotherm.Density(delta);
            var excess = (delta * values.Compressibility) - target;
            if (excess > 0)
                high = Math.Min(high, delta);
            else
                low = Math.Max(low, delta);

            // Where the isotherm is nearly flat a Newton step can leap past every density there is: at most double.
            // Inside the spinodal it points out of the bracket.
            var next = Math.Min(delta - (excess / values.Stiffness), 2 * delta);
            // A step out of the bracket becomes half of the bracket, unless it is the rounding of an answer that is one
            // of its ends.
            if (!(next > low && next < high) && !(Math.Abs(next - delta) < LastStep * delta))
                next = 0.5 * (low + high);
            residual = Math.Abs(next - delta) / delta;
            if (next > MaxDelta)
                return false;
            delta = next;
            if (residual < LastStep)
                return true;
        }

        return false;
    }
}
