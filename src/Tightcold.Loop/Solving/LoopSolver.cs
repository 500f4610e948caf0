namespace Tightcold.Loop.Solving;

/// <summary>
/// Seeks the steady state: Newton on all three unknowns from a likely start, then from others, then the charge in a
/// bracket with Newton for flow and energy inside, then brackets at every level. What none of them closes is reported as
/// such; a bracket's last point is never handed out as an answer.
/// </summary>
internal static class LoopSolver
{
    /// <summary>Largest residual (share of flow, charge, latent heat) of an answer.</summary>
    public const double Accepted = 1e-8;

    public static LoopPoint Solve(in LoopCase c, LoopPoint? start, ref SolveTrace trace)
    {
        var box = LoopBox.Of(c);
        LoopPoint point = default;
        if (start is { } near && NewtonRun.All(c, box, near.LogSuction, near.LogDischarge, near.H1, ref point, ref trace))
            return point;
        for (var attempt = 0; attempt < Starts.Count; attempt++)
        {
            Starts.Get(c, box, attempt, out var suction, out var discharge, out var h1);
            if (NewtonRun.All(c, box, suction, discharge, h1, ref point, ref trace))
                return point;
            trace.Rung = 1;
        }

        trace.Rung = 2;
        return BracketedCharge.Solve(c, box, ref trace);
    }

    /// <summary>Flow and energy balanced at a given discharge pressure, charge left open.</summary>
    public static bool TryAtDischarge(in LoopCase c, double logDischarge, ref LoopPoint point, ref SolveTrace trace)
    {
        var box = LoopBox.Of(c);
        return FlowBalance.TrySolve(c, box, logDischarge, ref point, ref trace);
    }
}
