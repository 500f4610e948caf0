using System.Collections.Immutable;
using Tightcold.Diagnosis.Leaks;
using Tightcold.Quantities;

namespace Tightcold.Diagnosis.Tightness;

/// <summary>From the odds to a verdict: what no odds may override.</summary>
internal static class TightnessJudge
{
    private const double BelowProven = 0.89,
        BelowLikely = 0.69,
        Even = 0.50;

    /// <summary>Failed tests of the whole circuit after which nothing was mended.</summary>
    public static ImmutableArray<int> Unanswered(
        ImmutableArray<TestReading> readings,
        TightnessEvidence evidence,
        double lastMended
    )
    {
        var failed = ImmutableArray.CreateBuilder<int>();
        for (var i = 0; i < readings.Length; i++)
        {
            if (!readings[i].Failed)
                continue;
            var (time, hosesAlone) =
                readings[i].Kind == TightnessTestKind.VacuumHold
                    ? (evidence.Holds[readings[i].Index].Time, evidence.Holds[readings[i].Index].HosesAlone)
                    : (evidence.Nitrogen[readings[i].Index].Time, false);
            if (!hosesAlone && !(lastMended > time))
                failed.Add(i);
        }
        return failed.ToImmutable();
    }

    /// <summary>Spots that a person called leaking, or that a check showed clearly, not mended since.</summary>
    [Said]
    public static string? FoundNotMended(TightnessEvidence evidence)
    {
        foreach (var spot in evidence.Spots)
        {
            if (spot.Found && spot.MendedAt is null)
                return spot.Name;
            foreach (var test in spot.Tests)
                if (!(spot.MendedAt >= test.Time) && Shows(test, spot, evidence.Setting))
                    return spot.Name;
        }
        return null;
    }

    /// <summary>It was mended because it leaked: what was tested before speaks no more. A part changed for another
    /// reason changes nothing but itself; that the circuit stood open for it is an opening.</summary>
    public static bool LeakedBeforeRepair(LeakSpot spot, LeakSetting setting)
    {
        if (spot.MendedAt is null)
            return false;
        if (spot.Found)
            return true;
        foreach (var test in spot.Tests)
            if (test.Time <= spot.MendedAt && Shows(test, spot, setting))
                return true;
        return false;
    }

    private static bool Shows(in LeakTest test, LeakSpot spot, LeakSetting setting) =>
        test.Outcome == LeakTestOutcome.Clear
        && !test.Blind
        && LeakDetection.Seen(test, spot.Component, 1000 * LeakPrior.GramPerYear, setting).Seen > 0.01;

    /// <summary>The odds as they may be told: a failed test or a known leak never leaves it proven, nor do tests that
    /// could not have seen.</summary>
    /// <param name="failedKgPerS">Rate that the worst unanswered test shows by itself; null without one.</param>
    public static double Limited(
        double odds,
        double? failedKgPerS,
        double lineKgPerS,
        bool hosesShown,
        bool found,
        double divided
    )
    {
        // The more a failed test shows, the less is left, whatever else may explain it; but hoses that leak alone do.
        if (failedKgPerS is { } rate)
            return Math.Min(odds, Even * (hosesShown ? 1 : Math.Min(1, Math.Sqrt(lineKgPerS / rate))));
        if (found || divided < TightnessInference.DividesForLikely)
            return Math.Min(odds, BelowLikely);
        return divided < TightnessInference.DividesForProven ? Math.Min(odds, BelowProven) : odds;
    }

    public static TightnessVerdict Verdict(double told, bool carFailed, bool anyFailed, double divided) =>
        carFailed || anyFailed && told < 0.5 ? TightnessVerdict.Leaking
        : anyFailed ? TightnessVerdict.NotProven
        : divided < TightnessInference.DividesForLikely && divided > 1 / TightnessInference.DividesForLikely
            ? TightnessVerdict.Untested
        : told >= TightnessInference.ProvenFrom ? TightnessVerdict.Proven
        : told >= TightnessInference.LikelyFrom ? TightnessVerdict.Likely
        : TightnessVerdict.NotProven;

    /// <summary>The largest share of what speaks against.</summary>
    public static (TightnessDoubt Doubt, string? Spot) Largest(
        ImmutableArray<SpotTightness> spots,
        double reassembly,
        TightnessVerdict verdict,
        bool testFailed,
        string? found
    )
    {
        if (found is not null)
            return (TightnessDoubt.FoundNotMended, found);
        if (testFailed)
            return (TightnessDoubt.FailedTest, null);
        if (verdict == TightnessVerdict.Untested)
            return (TightnessDoubt.NothingTested, null);
        var worst = spots.MaxBy(spot => spot.TooMuch)!;
        if (worst.TooMuch < 0.005 && reassembly < 0.005)
            return (TightnessDoubt.None, null);
        if (reassembly > worst.TooMuch)
            return (TightnessDoubt.Reassembly, null);
        return worst.Spot.Name == LeakSpot.Elsewhere ? (TightnessDoubt.Elsewhere, null)
            : worst.Spot.MendedAt is not null ? (TightnessDoubt.RepairMayNotHold, worst.Spot.Name)
            : (TightnessDoubt.Spot, worst.Spot.Name);
    }
}
