using Tightcold.Loop.Cycling;
using Tightcold.Loop.Results;

namespace Tightcold.Loop.Solving;

/// <summary>
/// Seeks the steady state: Newton on all three unknowns from a likely start; if that gives up, flow and energy are
/// balanced at the pressure where it stood and Newton goes on from there; then other starts, a walk from another
/// charge, and last the charge in a bracket with flow and energy balanced inside. What none of them closes is reported
/// as such; a bracket's last point is never handed out as an answer.
/// </summary>
internal static class LoopSolver
{
    /// <summary>Largest residual (share of flow, charge, latent heat) of an answer.</summary>
    public const double Accepted = 1e-8;

    public static LoopPoint Solve(in LoopCase c, LoopStart? start, ref SolveTrace trace)
    {
        var box = LoopBox.Of(c);
        LoopPoint point = default;
        if (
            start is { } near
            && NewtonRun.All(c, box, near.LogSuction, near.LogDischarge, near.OutletEnthalpy, ref point, ref trace)
        )
            return point;
        Starts.Get(c, box, 0, out var suction, out var discharge, out var h1);
        if (NewtonRun.FromCold(c, box, suction, discharge, h1, ref point, ref trace))
            return point;

        trace.Rung = 1;
        if (trace.Last.IsFinite && Restored(c, box, ref point, ref trace))
            return trace.End == SolveEnd.NoRoomForCharge ? OrBelow(c, box, point, ref trace) : point;
        trace.Rung = 2;
        if (LeavesAtTop(c, box, suction, h1, ref point, ref trace))
            return OrBelow(c, box, point, ref trace);
        for (var attempt = 1; attempt < Starts.Count; attempt++)
        {
            Starts.Get(c, box, attempt, out suction, out discharge, out h1);
            if (NewtonRun.FromCold(c, box, suction, discharge, h1, ref point, ref trace))
                return point;
        }

        if (ChargeWalk.Solve(c, box, ref point, ref trace))
            return point;
        trace.Rung = 3;
        return BracketedCharge.Solve(c, box, ref trace);
    }

    /// <summary>The held charge need not grow with pressure everywhere: before "no room" is believed, the cold end is
    /// tried.</summary>
    private static LoopPoint OrBelow(in LoopCase c, in LoopBox box, in LoopPoint top, ref SolveTrace trace)
    {
        Starts.Get(c, box, 1, out var suction, out var discharge, out var h1);
        var point = default(LoopPoint);
        if (
            !NewtonRun.FromCold(c, box, suction, discharge, h1, ref point, ref trace)
            && !(c.ChargeKg < RoomyShare * c.Design.LabelChargeKg && FromSwitch(c, box, top, ref point, ref trace))
        )
            return top;
        trace.End = SolveEnd.Converged;
        return point;
    }

    // Up to so much over the label a circuit has room for its charge as a rule.
    private const double RoomyShare = 1.3;

    /// <summary>From the cut-out pressure down: where a throttled circuit has an answer far below it that the cold
    /// starts miss.</summary>
    private static bool FromSwitch(
        in LoopCase c,
        in LoopBox box,
        in LoopPoint top,
        ref LoopPoint point,
        ref SolveTrace trace
    )
    {
        var held = top;
        return FlowBalance.TrySolve(c, box, HighSwitch.LogDischarge(c), ref held, ref trace)
            && NewtonRun.All(c, box, held.LogSuction, held.LogDischarge, held.H1, ref point, ref trace);
    }

    /// <summary>Flow and energy balanced at a given discharge pressure, charge left open.</summary>
    public static bool TryAtDischarge(in LoopCase c, double logDischarge, ref LoopPoint point, ref SolveTrace trace)
    {
        var box = LoopBox.Of(c);
        return FlowBalance.TrySolve(c, box, logDischarge, ref point, ref trace);
    }

    private static bool Restored(in LoopCase c, in LoopBox box, ref LoopPoint point, ref SolveTrace trace)
    {
        var at = trace.Last;
        var top = at.LogDischarge >= box.MaxLogDischarge - 1e-6;
        if (!FlowBalance.TryNewton(c, box, at.LogDischarge, ref at, ref trace))
            return false;
        if (top && at.ChargeResidual < 0)
        {
            // Even at the top of the box there is less inside than was filled in: it ends behind the high-pressure
            // switch.
            point = at;
            trace.End = SolveEnd.NoRoomForCharge;
            return true;
        }

        return NewtonRun.All(c, box, at.LogSuction, at.LogDischarge, at.H1, ref point, ref trace);
    }

    /// <summary>
    /// Newton that fails is often drawn to a pressure behind the high-pressure switch. Flow and energy balanced there
    /// with less than the charge inside is the proof of it.
    /// </summary>
    private static bool LeavesAtTop(
        in LoopCase c,
        in LoopBox box,
        double suction,
        double h1,
        ref LoopPoint point,
        ref SolveTrace trace
    )
    {
        point = trace.Last;
        if (
            !point.IsFinite
            || point.H1 == 0
            || !FlowBalance.TryNewton(c, box, box.MaxLogDischarge, ref point, ref trace)
        )
        {
            point = new LoopPoint { LogSuction = suction, H1 = h1 };
            if (!FlowBalance.TryNewton(c, box, box.MaxLogDischarge, ref point, ref trace))
                return false;
        }

        if (point.ChargeResidual >= 0)
            return false;
        trace.End = SolveEnd.NoRoomForCharge;
        return true;
    }
}
