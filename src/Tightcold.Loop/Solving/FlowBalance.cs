namespace Tightcold.Loop.Solving;

/// <summary>
/// At a given discharge pressure: the suction pressure at which throttle and compressor pass the same flow, with the
/// energy balance of the evaporator's outlet inside. Newton on both first, brackets in brackets where that fails.
/// </summary>
internal static class FlowBalance
{
    private const int MostSteps = 15;
    private const double LogStep = 1e-6;
    private const double EnthalpyStep = 0.1;

    public static bool TrySolve(in LoopCase c, in LoopBox box, double logDischarge, ref LoopPoint point, ref SolveTrace trace)
    {
        if (point.H1 != 0 && TryNewton(c, box, logDischarge, ref point, ref trace))
            return true;
        trace.Rung = Math.Max(trace.Rung, 3);
        return TryBrackets(c, box, logDischarge, ref point, ref trace);
    }

    private static bool TryNewton(in LoopCase c, in LoopBox box, double y, ref LoopPoint point, ref SolveTrace trace)
    {
        double x = point.LogSuction, h = point.H1;
        LoopMarch.Evaluate(c, x, y, h, out var at);
        trace.Marches++;
        for (var step = 0; step < MostSteps; step++)
        {
            var merit = Merit(at);
            if (!double.IsFinite(merit))
                return false;
            if (merit <= LoopSolver.Accepted)
            {
                point = at;
                return true;
            }

            LoopMarch.Evaluate(c, x + LogStep, y, h, out var dx);
            LoopMarch.Evaluate(c, x, y, h + EnthalpyStep, out var dh);
            trace.Marches += 2;
            double a = (dx.FlowResidual - at.FlowResidual) / LogStep, b = (dh.FlowResidual - at.FlowResidual) / EnthalpyStep;
            double d = (dx.EnergyResidual - at.EnergyResidual) / LogStep, e = (dh.EnergyResidual - at.EnergyResidual) / EnthalpyStep;
            var det = (a * e) - (b * d);
            var sx = ((b * at.EnergyResidual) - (e * at.FlowResidual)) / det;
            var sh = ((d * at.FlowResidual) - (a * at.EnergyResidual)) / det;
            var lambda = Math.Min(1, Math.Min(0.25 / Math.Abs(sx), 12e3 / Math.Abs(sh)));
            if (double.IsNaN(lambda))
                return false;
            var better = false;
            for (var i = 0; i < 5 && !better; i++)
            {
                var nx = Math.Clamp(x + (lambda * sx), box.MinLogSuction, box.MaxLogSuction);
                LoopMarch.Evaluate(c, nx, y, h + (lambda * sh), out var next);
                trace.Marches++;
                if (Merit(next) < merit)
                {
                    (x, h, at, better) = (nx, h + (lambda * sh), next, true);
                }

                lambda *= 0.5;
            }

            if (!better)
                return false;
        }

        return false;
    }

    private static double Merit(in LoopPoint p) => Math.Max(Math.Abs(p.FlowResidual), 5 * Math.Abs(p.EnergyResidual));

    private static bool TryBrackets(in LoopCase c, in LoopBox box, double logDischarge, ref LoopPoint point, ref SolveTrace trace)
    {
        var f = new FlowAtSuction { Case = c, LogDischarge = logDischarge };
        var high = Math.Min(box.MaxLogSuction, logDischarge - 1e-3);
        double fLow = f.At(box.MinLogSuction), fHigh = f.At(high);
        Bracket.TryFind(ref f, box.MinLogSuction, high, fLow, fHigh, 1e-13, 1e-10, 80, out _);
        trace.Marches += f.Marches;
        point = f.Point;
        if (Merit(point) <= LoopSolver.Accepted)
            return true;
        return TryNewton(c, box, logDischarge, ref point, ref trace);
    }

    private struct FlowAtSuction : Bracket.IFunction
    {
        public LoopCase Case;
        public double LogDischarge;
        public LoopPoint Point;
        public int Marches;

        public double At(double x)
        {
            var inner = new EnergyAtEnthalpy { Case = Case, LogSuction = x, LogDischarge = LogDischarge };
            Case.Table.Row(x, out var row);
            var low = row.LiquidEnthalpy + (0.02 * row.Latent);
            var high = row.SuperheatedEnthalpy(Math.Max(0, Case.Coil.AirInK - row.TemperatureK) + 1);
            double fLow = inner.At(low), fHigh = inner.At(high);
            Bracket.TryFind(ref inner, low, high, fLow, fHigh, 1e-6, 1e-12, 80, out _);
            Marches += inner.Marches;
            Point = inner.Point;
            return Point.FlowResidual;
        }
    }

    private struct EnergyAtEnthalpy : Bracket.IFunction
    {
        public LoopCase Case;
        public double LogSuction;
        public double LogDischarge;
        public LoopPoint Point;
        public int Marches;

        public double At(double x)
        {
            LoopMarch.Evaluate(Case, LogSuction, LogDischarge, x, out Point);
            Marches++;
            return Point.EnergyResidual;
        }
    }
}
