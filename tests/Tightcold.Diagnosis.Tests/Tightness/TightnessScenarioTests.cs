using Tightcold.Diagnosis.Leaks;
using Tightcold.Diagnosis.Tightness;
using static Tightcold.Diagnosis.Tests.Tightness.TightCase;

namespace Tightcold.Diagnosis.Tests.Tightness;

public sealed class TightnessScenarioTests(ITestOutputHelper output)
{
    private TightnessBelief Of(TightnessEvidence evidence, string what = "")
    {
        var clock = System.Diagnostics.Stopwatch.StartNew();
        var belief = TightnessInference.Of(evidence);
        output.WriteLine($"{what}: {belief.StillCools:F3} ({belief.StillCoolsUnlimited:F3}) {belief.Verdict} {belief.Doubt} {belief.DoubtSpot} " +
            $"/{belief.DoubtDividedBy:F2} now {belief.Now.P05 / Gram:F0}..{belief.Now.P50 / Gram:F0}..{belief.Now.P95 / Gram:F0} " +
            $"another {belief.AnotherRemains:F3} dry {belief.Dry.Dry:F2} {belief.Dry.Doubt} line {belief.LineKgPerS / Gram:F0} {clock.ElapsedMilliseconds} ms " +
            string.Join(" ", belief.Tests.Select(t =>
                $"[{t.Kind} shows {t.ShowsLeak:F2} floor {t.FloorKgPerS / Gram:F0} ({t.FloorHighKgPerS / Gram:F0}) rate {t.RateKgPerS.P05 / Gram:F0}..{t.RateKgPerS.P95 / Gram:F0} {t.Quality}]")));
        foreach (var p in belief.Next.Take(3)) output.WriteLine($"   next {p.Kind} {p.Look} {p.Spot} {p.Minutes:F0} min gain {p.Gain:F3} pass {p.Passes:F2} -> {p.OddsIfPassed:F3}");
        return belief;
    }

    private static TightnessEvidence Repaired() => Car().Checked("condenser", Test(LeakTestKind.Detector,
        LeakTestOutcome.Clear, 0))
        .Mended("condenser", 10_000) with { Openings = [new(10_000, 3600, 2)], Came = WhyItCame.ItLost };

    [Fact]
    public void Look()
    {
        Of(Car(), "warm"); Of(Car(), "bare");
        Of(Repaired(), "repaired");
        Of(Repaired() with { Nitrogen = [Nitrogen(20_000, 30, 15, 12)], Holds = [Hold(30_000, 30, 3)] }, "15 to 12");
        Of(Repaired() with { Holds = [Hold(30_000, 30, 3)] }, "hold");
        Of(Repaired() with { Holds = [Hold(30_000, 30, 3, null)] }, "hold no temp");
        Of(Repaired() with { Holds = [Hold(30_000, 240, 3)] }, "hold 4h");
        Of(Repaired() with { Holds = [Hold(30_000, 1, 0, count: 2)] }, "hold 60 s");
        Of(Repaired() with { Holds = [DialHold(30_000, 30)] }, "dial");
        Of(Repaired() with { Nitrogen = [Nitrogen(20_000, 1, 15, 15, count: 2)] }, "n2 1 min");
        Of(Repaired() with { Nitrogen = [Nitrogen(20_000, 30, 1, 1)] }, "n2 1 bar");
        Of(Repaired() with { Nitrogen = [Nitrogen(20_000, 30, 15, 15)] }, "n2 30 min");
        Of(Repaired() with { Nitrogen = [Nitrogen(20_000, 24 * 60, 15, 15)] }, "n2 24 h");
        Of(Repaired() with { Nitrogen = [Nitrogen(20_000, 30, 15, 15)], Searches = [Soap(20_000)] }, "n2 30 min soap");
        Of(Repaired() with { Nitrogen = [Nitrogen(20_000, 30, 15, 15)], Searches = [Soap(20_000),
            Detector(40_000)] }, "n2 soap detector");
        Of(Repaired() with { Nitrogen = [Nitrogen(20_000, 30, 15, 15)], Holds = [Hold(30_000, 30, 3)], Searches =
            [Soap(20_000), Detector(40_000)],
            Means = new([Test(LeakTestKind.Detector, LeakTestOutcome.Nothing, 1e9)], 1.3, 10_000, 16e5) { Charged =
                true } }, "all");
        Of(Repaired() with { Holds = [Hold(30_000, 30, 60)] }, "hold +60");
        Of(Repaired() with { Holds = [Hold(30_000, 30, 600)] }, "hold +600");
        Of(Repaired() with { Question = Repaired().Question with { Effort = TightnessEffort.Glance },
            Holds = [Hold(30_000, 30, 3)] }, "glance");
        Of(Car() with { Came = WhyItCame.CheckUp }, "checkup");
    }
}
