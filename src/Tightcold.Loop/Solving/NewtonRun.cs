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
        (p.FlowResidual * p.FlowResidual) + (p.ChargeResidual * p.ChargeResidual) + (25 * p.EnergyResidual * p.EnergyResidual);
}
