namespace Tightcold.Loop.Solving;

/// <summary>
/// Continuation: solves the same circuit with a charge where Newton gets home, then walks to the wanted charge in steps
/// that halve when one fails and grow when it does not. Follows the answer through corners that a cold start misses,
/// and along curves on which pressure turns back while charge goes on.
/// </summary>
internal static class ChargeWalk
{
    private const int MostSteps = 24;
    private const double FirstStep = 0.35;
    private const double LeastStep = 0.004;

    private static ReadOnlySpan<double> Elsewhere => [0.75, 1.3, 0.5, 1.8, 0.3];

    public static bool Solve(in LoopCase c, in LoopBox box, ref LoopPoint point, ref SolveTrace trace)
    {
        foreach (var share in Elsewhere)
        {
            var other = c;
            other.ChargeKg = c.ChargeKg * share;
            Starts.Get(other, box, 0, out var suction, out var discharge, out var h1);
            if (
                NewtonRun.FromCold(other, box, suction, discharge, h1, ref point, ref trace)
                && TryWalk(c, box, Math.Log(share), ref point, ref trace)
            )
                return true;
        }

        return false;
    }

    private static bool TryWalk(in LoopCase c, in LoopBox box, double place, ref LoopPoint point, ref SolveTrace trace)
    {
        var step = FirstStep;
        for (var i = 0; i < MostSteps; i++)
        {
            var next = place > 0 ? Math.Max(0, place - step) : Math.Min(0, place + step);
            var other = c;
            other.ChargeKg = c.ChargeKg * Math.Exp(next);
            if (NewtonRun.All(other, box, point.LogSuction, point.LogDischarge, point.H1, ref point, ref trace))
            {
                if (next == 0)
                    return true;
                place = next;
                step *= 1.6;
                continue;
            }

            step *= 0.4;
            if (step < LeastStep)
                return false;
        }

        return false;
    }
}
