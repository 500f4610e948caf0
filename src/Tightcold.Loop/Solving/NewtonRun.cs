namespace Tightcold.Loop.Solving;

/// <summary>
/// Newton's method on (ln p suction, ln p discharge, h1) with differences for the Jacobian, bounded steps and a halving
/// line search. Gives up early and says so.
/// </summary>
internal static class NewtonRun
{
    private const int MostSteps = 25;
    private const int MostHalvings = 6;
    private const double LogStep = 1e-6;
    private const double EnthalpyStep = 0.1;

    // Longest step: a fifth in pressure, 12 kJ/kg.
    private const double LongestLog = 0.2;
    private const double LongestEnthalpy = 12e3;

    public static bool All(in LoopCase c, in LoopBox box, double x, double y, double h, ref LoopPoint point, ref SolveTrace trace)
    {
        LoopMarch.Evaluate(c, x, y, h, out var at);
        trace.Marches++;
        for (var step = 0; step < MostSteps; step++)
        {
            trace.Last = at;
            if (!at.IsFinite)
                return false;
            if (at.Worst <= LoopSolver.Accepted)
            {
                point = at;
                return true;
            }

            trace.NewtonSteps++;
            LoopMarch.Evaluate(c, x + LogStep, y, h, out var dx);
            LoopMarch.Evaluate(c, x, y + LogStep, h, out var dy);
            LoopMarch.Evaluate(c, x, y, h + EnthalpyStep, out var dh);
            trace.Marches += 3;
            if (!Linear3.TrySolve(at, dx, dy, dh, LogStep, EnthalpyStep, out var sx, out var sy, out var sh))
                return false;
            var scale = Math.Min(1, Math.Min(LongestLog / Math.Max(Math.Abs(sx), Math.Abs(sy)), LongestEnthalpy / Math.Abs(sh)));
            if (double.IsNaN(scale))
                return false;
            if (!Advance(c, box, ref x, ref y, ref h, sx * scale, sy * scale, sh * scale, ref at, ref trace))
                return false;
        }

        return false;
    }

    /// <summary>
    /// Newton from a cold start. Where the throttle cannot pass what the compressor draws the flow residual has no slope:
    /// suction is lowered until it has. Where it passes far more, the high side holds no liquid: discharge is lowered.
    /// </summary>
    public static bool FromCold(in LoopCase c, in LoopBox box, double x, double y, double h, ref LoopPoint point, ref SolveTrace trace)
    {
        for (var i = 0; i < MostNudges; i++)
        {
            LoopMarch.Evaluate(c, x, y, h, out var at);
            trace.Marches++;
            if (at.FlowResidual < NothingPasses)
            {
                x = Math.Max(x - 0.4, box.MinLogSuction);
            }
            else if (at.FlowResidual > FarTooMuch)
            {
                var towards = Math.Log(c.Table.SaturationPressurePa(c.CondenserAirK + 0.5));
                y = Math.Max(0.5 * (y + Math.Min(y, towards)), box.MinLogDischarge);
            }
            else
            {
                break;
            }

            c.Table.Row(x, out var row);
            h = c.Expansion == Designs.ExpansionKind.OrificeTube && at.FlowResidual > 0
                ? row.LiquidEnthalpy + (0.95 * row.Latent)
                : row.SuperheatedEnthalpy(Math.Min(6.5 + (8 * i), 0.7 * Math.Max(c.Coil.AirInK - row.TemperatureK, 1)));
        }

        return All(c, box, x, y, h, ref point, ref trace);
    }

    private const int MostNudges = 6;
    private const double NothingPasses = -0.9;
    private const double FarTooMuch = 1.2;

    private static bool Advance(in LoopCase c, in LoopBox box, ref double x, ref double y, ref double h, double sx, double sy, double sh, ref LoopPoint at, ref SolveTrace trace)
    {
        var merit = Merit(at);
        var lambda = 1.0;
        for (var i = 0; i < MostHalvings; i++)
        {
            var nx = Math.Clamp(x + (lambda * sx), box.MinLogSuction, box.MaxLogSuction);
            var ny = Math.Clamp(y + (lambda * sy), box.MinLogDischarge, box.MaxLogDischarge);
            LoopMarch.Evaluate(c, nx, ny, h + (lambda * sh), out var next);
            trace.Marches++;
            if (next.IsFinite && (Merit(next) < merit * (1 - (0.02 * lambda)) || next.Worst <= LoopSolver.Accepted))
            {
                x = nx;
                y = ny;
                h += lambda * sh;
                at = next;
                return true;
            }

            lambda *= 0.5;
        }

        return false;
    }

    private static double Merit(in LoopPoint p) =>
        (p.FlowResidual * p.FlowResidual) + (p.ChargeResidual * p.ChargeResidual) + (p.EnergyResidual * p.EnergyResidual);
}
