namespace Tightcold.Loop.Solving;

/// <summary>
/// Newton's method on (ln p suction, ln p discharge, h1) with differences for the Jacobian, bounded steps and a halving
/// line search; where it goes fast the slopes are kept and corrected. Gives up early and says so.
/// </summary>
internal static class NewtonRun
{
    private const int MostSteps = 25;
    private const int MostHalvings = 6;

    // Slopes are good for another step as long as a step leaves less than this of the residuals.
    private const double KeepBelow = 0.5;

    // Longest step: a fifth in pressure, 12 kJ/kg.
    private const double LongestLog = 0.2;
    private const double LongestEnthalpy = 12e3;

    public static bool All(
        in LoopCase c,
        in LoopBox box,
        double x,
        double y,
        double h,
        ref LoopPoint point,
        ref SolveTrace trace
    )
    {
        LoopMarch.Evaluate(c, x, y, h, out var at);
        trace.Marches++;
        var slopes = default(Slopes);
        var known = false;
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

            if (known && Corrected(c, box, ref x, ref y, ref h, ref slopes, ref at, ref trace))
                continue;
            trace.NewtonSteps++;
            slopes = Slopes.ByDifferences(c, x, y, h, at);
            trace.Marches += Slopes.Marches;
            if (!slopes.TrySolve(at, out var sx, out var sy, out var sh))
                return false;
            var scale = Math.Min(
                1,
                Math.Min(LongestLog / Math.Max(Math.Abs(sx), Math.Abs(sy)), LongestEnthalpy / Math.Abs(sh))
            );
            if (double.IsNaN(scale))
                return false;
            var before = at.Worst;
            if (
                !Advance(
                    c,
                    box,
                    ref x,
                    ref y,
                    ref h,
                    sx * scale,
                    sy * scale,
                    sh * scale,
                    ref at,
                    ref trace,
                    out var whole
                )
            )
                return false;
            known = whole && scale == 1 && at.Worst < KeepBelow * before;
            if (known)
                slopes.Correct(sx, sy, sh, at);
        }

        return false;
    }

    /// <summary>A whole step by slopes that earlier steps corrected; not taken unless it leaves a small part of the
    /// residuals.</summary>
    private static bool Corrected(
        in LoopCase c,
        in LoopBox box,
        ref double x,
        ref double y,
        ref double h,
        ref Slopes slopes,
        ref LoopPoint at,
        ref SolveTrace trace
    )
    {
        if (
            !slopes.TrySolve(at, out var sx, out var sy, out var sh)
            || !IsShort(sx, sy, sh)
            || !box.Holds(x + sx, y + sy)
        )
            return false;
        LoopMarch.Evaluate(c, x + sx, y + sy, h + sh, out var next);
        trace.Marches++;
        if (!next.IsFinite || !(next.Worst < KeepBelow * at.Worst || next.Worst <= LoopSolver.Accepted))
            return false;
        slopes.Correct(sx, sy, sh, next);
        (x, y, h, at) = (x + sx, y + sy, h + sh, next);
        return true;
    }

    /// <summary>
    /// Newton from a cold start. Where the throttle cannot pass what the compressor draws the flow residual has no
    /// slope: suction is lowered until it has. Where it passes far more, the high side holds no liquid: discharge is
    /// lowered.
    /// </summary>
    public static bool FromCold(
        in LoopCase c,
        in LoopBox box,
        double x,
        double y,
        double h,
        ref LoopPoint point,
        ref SolveTrace trace
    )
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
            h =
                c.Expansion == Designs.ExpansionKind.OrificeTube && at.FlowResidual > 0
                    ? row.LiquidEnthalpy + (0.95 * row.Latent)
                    : row.SuperheatedEnthalpy(
                        Math.Min(6.5 + (8 * i), 0.7 * Math.Max(c.Coil.AirInK - row.TemperatureK, 1))
                    );
        }

        return All(c, box, x, y, h, ref point, ref trace);
    }

    private const int MostNudges = 6;
    private const double NothingPasses = -0.9;
    private const double FarTooMuch = 1.2;

    private static bool Advance(
        in LoopCase c,
        in LoopBox box,
        ref double x,
        ref double y,
        ref double h,
        double sx,
        double sy,
        double sh,
        ref LoopPoint at,
        ref SolveTrace trace,
        out bool whole
    )
    {
        var merit = Merit(at);
        var lambda = 1.0;
        whole = false;
        for (var i = 0; i < MostHalvings; i++)
        {
            var nx = Math.Clamp(x + (lambda * sx), box.MinLogSuction, box.MaxLogSuction);
            var ny = Math.Clamp(y + (lambda * sy), box.MinLogDischarge, box.MaxLogDischarge);
            LoopMarch.Evaluate(c, nx, ny, h + (lambda * sh), out var next);
            trace.Marches++;
            if (next.IsFinite && (Merit(next) < merit * (1 - (0.02 * lambda)) || next.Worst <= LoopSolver.Accepted))
            {
                whole = i == 0 && nx == x + sx && ny == y + sy;
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

    private static bool IsShort(double sx, double sy, double sh) =>
        Math.Abs(sx) <= LongestLog && Math.Abs(sy) <= LongestLog && Math.Abs(sh) <= LongestEnthalpy;

    private static double Merit(in LoopPoint p) =>
        (p.FlowResidual * p.FlowResidual)
        + (p.ChargeResidual * p.ChargeResidual)
        + (p.EnergyResidual * p.EnergyResidual);
}
