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

    /// <param name="isotherm">The isotherm.</param>
    /// <param name="pressurePa">Pressure, Pa.</param>
    /// <param name="low">A reduced density whose pressure is not above the target (0 if none better is known).</param>
    /// <param name="high">A reduced density whose pressure is not below the target, or infinity.</param>
    /// <param name="delta">In: guess. Out: the reduced density.</param>
    /// <param name="residual">Relative size of the last step.</param>
    public static bool TrySolve(in Isotherm isotherm, double pressurePa, double low, double high, ref double delta, out double residual)
    {
        var target = pressurePa / isotherm.PressureScalePa;
        residual = double.PositiveInfinity;
        var previous = double.PositiveInfinity;
        for (var i = 0; i < MaxIterations; i++)
        {
            var values = isotherm.Density(delta);
            var excess = (delta * values.Compressibility) - target;
            if (excess > 0)
                high = Math.Min(high, delta);
            else
                low = Math.Max(low, delta);

            var stiffness = values.Stiffness;
            // Where the isotherm is nearly flat a Newton step can leap past every density there is: at most double.
            var next = stiffness > 0 ? Math.Min(delta - (excess / stiffness), 2 * delta) : double.NaN;
            if (!(next > low && next < high))
            {
                if (Math.Abs(next - delta) < 1e-14 * delta)
                {
                    residual = 0;
                    return true;
                }

                next = double.IsPositiveInfinity(high) ? Math.Max(1.3 * delta, 1.3 * low)
                    : high > 2 * low ? Math.Sqrt(Math.Max(low, 1e-6 * high) * high)
                    : 0.5 * (low + high);
            }

            residual = Math.Abs(next - delta) / delta;
            if (next > MaxDelta)
                return false;
            delta = next;
            if (residual < LastStep || (residual < 1e-7 && residual >= previous && stiffness > 0))
                return true;
            previous = residual;
        }

        return residual < 1e-9;
    }
}
