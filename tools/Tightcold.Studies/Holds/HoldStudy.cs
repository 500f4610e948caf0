using System.Collections.Immutable;
using Tightcold.Numerics.Roots;
using Tightcold.Procedures.Hold;

namespace Tightcold.Studies.Holds;

/// <summary>Judges many invented holds and says how well the odds are calibrated.</summary>
/// <param name="Holds">How many.</param>
/// <param name="LeakBins">Odds of a hole that shows, in ten bins: mean odds said, share that was so, how many.</param>
/// <param name="CalibrationError">Mean |said − so| over the bins, weighted by their number.</param>
/// <param name="Brier">Mean squared error of those odds.</param>
/// <param name="BrierOfPrior">The same when the share of such holes is always said.</param>
/// <param name="IntervalCoverage">Share of shown holes whose true inflow lies in the 90 % interval.</param>
/// <param name="FalseLeak">Share of holds without any hole that were called a leak at 9 to 1.</param>
public sealed record HoldStudy(
    int Holds,
    ImmutableArray<(double Said, double Was, int Count)> LeakBins,
    double CalibrationError,
    double Brier,
    double BrierOfPrior,
    double IntervalCoverage,
    double FalseLeak
)
{
    public static HoldStudy Run(int holds, ulong seed)
    {
        var said = new double[10];
        var was = new double[10];
        var count = new int[10];
        double brier = 0,
            share = 0,
            covered = 0,
            shown = 0,
            falseLeak = 0,
            sound = 0;
        var truths = new bool[holds];
        for (var i = 0; i < holds; i++)
        {
            var hold = HoldSimulator.Draw(seed * 1_000_003 + (ulong)i);
            var odds = HoldInference.Of(hold.Readings, hold.Setting);
            var truth = hold.ThroughputPaM3PerS > 0.5 * odds.FloorPaM3PerS;
            truths[i] = truth;
            var bin = Math.Min(9, (int)(10 * odds.LeakSeen));
            said[bin] += odds.LeakSeen;
            was[bin] += truth ? 1 : 0;
            count[bin]++;
            brier += Math.Pow(odds.LeakSeen - (truth ? 1 : 0), 2) / holds;
            share += truth ? 1.0 / holds : 0;
            if (hold.ThroughputPaM3PerS > odds.FloorPaM3PerS && odds.LeakSeen > 0.5)
            {
                shown++;
                if (hold.ThroughputPaM3PerS >= odds.LeakLowPaM3PerS && hold.ThroughputPaM3PerS <= odds.LeakHighPaM3PerS)
                    covered++;
            }
            if (hold.ThroughputPaM3PerS > 0)
                continue;
            sound++;
            if (odds.LeakSeen >= 0.9)
                falseLeak++;
        }
        var bins = Enumerable
            .Range(0, 10)
            .Where(i => count[i] > 0)
            .Select(i => (said[i] / count[i], was[i] / count[i], count[i]))
            .ToImmutableArray();
        return new(
            holds,
            bins,
            bins.Sum(bin => Math.Abs(bin.Item1 - bin.Item2) * bin.Item3) / holds,
            brier,
            share * (1 - share),
            shown > 0 ? covered / shown : 1,
            sound > 0 ? falseLeak / sound : 0
        );
    }

    /// <summary>Inflow at which half of the simulated holds show a rise (odds of no rise below 1 in 10), found by
    /// bisection over the common gauge and moments; Pa·m³/s.</summary>
    public static double SimulatedFloor(HoldReading[] like, HoldSetting setting, int holds, ulong seed)
    {
        var least = Math.Log(HoldFloor.Of(like, setting)) - 1.5;
        bool Shows(double logLeak)
        {
            var shown = 0;
            for (var i = 0; i < holds; i++)
            {
                var odds = HoldInference.Of(
                    HoldSimulator.Leak(Math.Exp(logLeak), like, setting, seed + (ulong)i),
                    setting with
                    {
                        Seed = (ulong)i,
                    }
                );
                if (odds.Of(HoldExplanation.Tight) + odds.Of(HoldExplanation.TemperatureDrift) <= 1 - HoldFloor.Shown)
                    shown++;
            }
            return 2 * shown >= holds;
        }
        var (low, high) = Halving.Narrow(Shows, least, least + 3, 8);
        return Math.Exp(0.5 * (low + high));
    }
}
