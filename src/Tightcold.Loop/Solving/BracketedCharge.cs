using Tightcold.Numerics.Roots;

namespace Tightcold.Loop.Solving;

/// <summary>The discharge pressure at which the circuit holds the charge, in a bracket that spans the whole
/// table.</summary>
internal static class BracketedCharge
{
    public static LoopPoint Solve(in LoopCase c, in LoopBox box, ref SolveTrace trace)
    {
        var f = new ChargeAtDischarge
        {
            Case = c,
            Box = box,
            Trace = trace,
        };
        // The middle first: it is the easiest, and its answer starts the ends.
        var middle = Math.Clamp(
            Math.Log(c.Table.SaturationPressurePa(c.CondenserAirK + 12)),
            box.MinLogDischarge + 0.1,
            box.MaxLogDischarge - 0.1
        );
        var fMiddle = f.Evaluate(middle);
        double a,
            b,
            fa,
            fb;
        if (fMiddle < 0)
        {
            (a, fa) = (middle, fMiddle);
            (b, fb) = Reach(ref f, middle, box.MaxLogDischarge, above: true);
        }
        else
        {
            (b, fb) = (middle, fMiddle);
            (a, fa) = Reach(ref f, middle, box.MinLogDischarge, above: false);
        }

        if (double.IsNaN(fa) || double.IsNaN(fb))
        {
            trace = f.Trace;
            trace.End = SolveEnd.NotClosed;
            return f.Point;
        }

        if (fa > 0 || fb < 0)
        {
            trace = f.Trace;
            trace.End = fb < 0 ? SolveEnd.NoRoomForCharge : SolveEnd.ChargeTooSmall;
            return f.Point;
        }

        BracketedRoot.TryFind(ref f, a, b, fa, fb, 1e-13, 1e-10, out _);
        trace = f.Trace;
        var point = f.Point;
        if (
            !(point.Worst <= LoopSolver.Accepted)
            && !NewtonRun.All(c, box, point.LogSuction, point.LogDischarge, point.H1, ref point, ref trace)
        )
            trace.End = SolveEnd.NotClosed;
        return point;
    }

    // Steps out from the middle so that each solve starts near the last, until the sign changes or the table ends.
    private static (double X, double F) Reach(ref ChargeAtDischarge f, double from, double end, bool above)
    {
        var x = from;
        var step = above ? 0.1 : -0.15;
        while (true)
        {
            x = above ? Math.Min(x + step, end) : Math.Max(x + step, end);
            var value = f.Evaluate(x);
            if (double.IsNaN(value) || (above ? value >= 0 : value <= 0))
                return (x, value);
            if (x == end)
                return (x, value);
            step *= 1.5;
        }
    }

    private struct ChargeAtDischarge : IScalarFunction
    {
        public LoopCase Case;
        public LoopBox Box;
        public LoopPoint Point;
        public SolveTrace Trace;

        public double Evaluate(double x)
        {
            return FlowBalance.TrySolve(Case, Box, x, ref Point, ref Trace) ? Point.ChargeResidual : double.NaN;
        }
    }
}
