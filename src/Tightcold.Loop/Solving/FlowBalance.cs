using Tightcold.Numerics.Roots;

namespace Tightcold.Loop.Solving;

/// <summary>
/// At a given discharge pressure: the suction pressure at which throttle and compressor pass the same flow, with the
/// energy balance of the evaporator's outlet inside. Newton on both first, brackets in brackets where that fails.
/// </summary>
internal static class FlowBalance
{
    private const int MostSteps = 15;

    // What Newton aims at, and what it may stop with when it gets no further.
    private const double Aimed = 1e-11;

    /// <param name="point">In: a point to start from, or none (all nought). Out: the last point tried.</param>
    public static bool TrySolve(
        in LoopCase c,
        in LoopBox box,
        double logDischarge,
        ref LoopPoint point,
        ref SolveTrace trace
    )
    {
        if (point.H1 != 0 && TryNewton(c, box, logDischarge, ref point, ref trace))
            return true;
        for (var attempt = 0; attempt < Starts.Count; attempt++)
        {
            var start = default(LoopPoint);
            Starts.Get(c, box, attempt, out var suction, out _, out var h1);
            start.LogSuction = Math.Min(suction, logDischarge - 0.3);
            start.H1 = h1;
            if (!TryNewton(c, box, logDischarge, ref start, ref trace))
                continue;
            point = start;
            return true;
        }

        trace.Rung = 4;
        return TryBrackets(c, box, logDischarge, ref point, ref trace);
    }

    public static bool TryNewton(in LoopCase c, in LoopBox box, double y, ref LoopPoint point, ref SolveTrace trace)
    {
        double x = point.LogSuction,
            h = point.H1;
        LoopMarch.Evaluate(c, x, y, h, out var at);
        trace.Marches++;
        for (var step = 0; step < MostSteps; step++)
        {
            var merit = Merit(at);
            if (!double.IsFinite(merit))
                return false;
            if (merit <= Aimed)
                break;
            LoopMarch.Evaluate(c, x + Slopes.LogStep, y, h, out var dx);
            LoopMarch.Evaluate(c, x, y, h + Slopes.EnthalpyStep, out var dh);
            trace.Marches += 2;
            double a = (dx.FlowResidual - at.FlowResidual) / Slopes.LogStep,
                b = (dh.FlowResidual - at.FlowResidual) / Slopes.EnthalpyStep;
            double d = (dx.EnergyResidual - at.EnergyResidual) / Slopes.LogStep,
                e = (dh.EnergyResidual - at.EnergyResidual) / Slopes.EnthalpyStep;
            var det = (a * e) - (b * d);
            var sx = ((b * at.EnergyResidual) - (e * at.FlowResidual)) / det;
            var sh = ((d * at.FlowResidual) - (a * at.EnergyResidual)) / det;
            var lambda = Math.Min(1, Math.Min(0.25 / Math.Abs(sx), 12e3 / Math.Abs(sh)));
            if (double.IsNaN(lambda))
                return false;
            if (!Advance(c, box, y, lambda * sx, lambda * sh, ref x, ref h, ref at, ref trace))
                break;
        }

        if (!(Merit(at) <= LoopSolver.Accepted))
            return false;
        point = at;
        return true;
    }

    private static bool Advance(
        in LoopCase c,
        in LoopBox box,
        double y,
        double sx,
        double sh,
        ref double x,
        ref double h,
        ref LoopPoint at,
        ref SolveTrace trace
    )
    {
        var merit = Merit(at);
        var lambda = 1.0;
        for (var i = 0; i < 5; i++)
        {
            var nx = Math.Clamp(x + (lambda * sx), box.MinLogSuction, box.MaxLogSuction);
            LoopMarch.Evaluate(c, nx, y, h + (lambda * sh), out var next);
            trace.Marches++;
            if (Merit(next) < merit)
            {
                (x, h, at) = (nx, h + (lambda * sh), next);
                return true;
            }

            lambda *= 0.5;
        }

        return false;
    }

    private static double Merit(in LoopPoint p) => Math.Max(Math.Abs(p.FlowResidual), Math.Abs(p.EnergyResidual));

    private static bool TryBrackets(
        in LoopCase c,
        in LoopBox box,
        double logDischarge,
        ref LoopPoint point,
        ref SolveTrace trace
    )
    {
        var f = new FlowAtSuction { Case = c, LogDischarge = logDischarge };
        var high = Math.Min(box.MaxLogSuction, logDischarge - 1e-3);
        double fLow = f.Evaluate(box.MinLogSuction),
            fHigh = f.Evaluate(high);
        BracketedRoot.TryFind(ref f, box.MinLogSuction, high, fLow, fHigh, 1e-13, 1e-10, out _);
        trace.Marches += f.Marches;
        point = f.Point;
        if (Merit(point) <= LoopSolver.Accepted)
            return true;
        return TryNewton(c, box, logDischarge, ref point, ref trace);
    }

    private struct FlowAtSuction : IScalarFunction
    {
        public LoopCase Case;
        public double LogDischarge;
        public LoopPoint Point;
        public int Marches;

        public double Evaluate(double x)
        {
            var inner = new EnergyAtEnthalpy
            {
                Case = Case,
                LogSuction = x,
                LogDischarge = LogDischarge,
            };
            Case.Table.Row(x, out var row);
            var low = row.LiquidEnthalpy + (0.02 * row.Latent);
            var high = row.SuperheatedEnthalpy(Math.Max(0, Case.Coil.AirInK - row.TemperatureK) + 1);
            double fLow = inner.Evaluate(low),
                fHigh = inner.Evaluate(high);
            BracketedRoot.TryFind(ref inner, low, high, fLow, fHigh, 1e-6, 1e-12, out _);
            Marches += inner.Marches;
            Point = inner.Point;
            return Point.FlowResidual;
        }
    }

    private struct EnergyAtEnthalpy : IScalarFunction
    {
        public LoopCase Case;
        public double LogSuction;
        public double LogDischarge;
        public LoopPoint Point;
        public int Marches;

        public double Evaluate(double x)
        {
            LoopMarch.Evaluate(Case, LogSuction, LogDischarge, x, out Point);
            Marches++;
            return Point.EnergyResidual;
        }
    }
}
