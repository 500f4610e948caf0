using System.Collections.Immutable;
using Tightcold.Diagnosis.Leaks;
using Tightcold.LeakTests;
using Tightcold.Procedures.Hold;

namespace Tightcold.Diagnosis.Tightness;

/// <summary>Which test would lift the odds most a minute: every test is played on the pictures of the car.</summary>
internal static class TightnessNext
{
    /// <summary>A search goes round faster than single checks: no tools change; assumed.</summary>
    private const double RoundShare = 0.6;

    /// <summary>A minute of waiting counts this much of a minute of work; assumed.</summary>
    private const double WaitShare = 0.02;

    private const double DialScatterPa = 3000;

    public static ImmutableArray<TightnessProposal> Rank(TightnessBelief belief, TightnessMeans means)
    {
        var pictures = belief.Pictures;
        var cools = Cools(belief);
        var proposals = new List<TightnessProposal>();
        foreach (var look in means.Looks)
        {
            var whole = new double[pictures.Count];
            Array.Fill(whole, 1);
            double minutes = 0;
            for (var j = 0; j < belief.Evidence.Spots.Length; j++)
            {
                var spot = belief.Evidence.Spots[j];
                if (
                    !SpotModel.Counts(
                        look with
                        {
                            Outcome = LeakTestOutcome.Nothing,
                        },
                        spot.Component,
                        belief.Evidence.Setting
                    )
                )
                    continue;
                var nothing = Nothing(belief, j, look);
                for (var i = 0; i < whole.Length; i++)
                    whole[i] *= nothing[i];
                minutes += RoundShare * look.Kind.Minutes;
                Add(
                    proposals,
                    TightnessTestKind.SpotCheck,
                    look.Kind,
                    spot.Name,
                    look.PressurePa,
                    look.Kind.Minutes,
                    0,
                    cools,
                    nothing
                );
            }
            Add(proposals, TightnessTestKind.WholeSearch, look.Kind, null, look.PressurePa, minutes, 0, cools, whole);
        }
        if (means.NitrogenStepPa is { } step)
            foreach (var seconds in (double[])[1800, 7200, 12 * 3600, 24 * 3600])
                Nitrogen(proposals, belief, means.NitrogenPa, step, seconds, cools);
        if (means.VacuumStepPa is { } vacuum)
            foreach (var seconds in (double[])[1800, 3600, 4 * 3600])
                Hold(proposals, belief, vacuum, seconds, cools);
        if (means.Charged)
            StandingAgain(proposals, belief, cools);
        return
        [
            .. proposals.Where(proposal => proposal.Gain > 1e-4).OrderByDescending(proposal => proposal.GainPerMinute),
        ];
    }

    private static double[] Cools(TightnessBelief belief)
    {
        var sums = new TightnessSums(1, belief.Evidence.Question);
        return Array.ConvertAll(belief.Pictures.TotalNow, total => sums.CoolsAt(Math.Log(total)));
    }

    private static double[] Nothing(TightnessBelief belief, int j, LeakTest look)
    {
        var pictures = belief.Pictures;
        var nothing = new double[pictures.Count];
        var component = belief.Evidence.Spots[j].Component;
        // On the grid of rates, for one curve serves all pictures.
        var curve = Array.ConvertAll(RateGrid.Values, rate =>
            LeakDetection.Likelihood(
                look with
                {
                    Outcome = LeakTestOutcome.Nothing,
                },
                component,
                rate,
                belief.Evidence.Setting
            )
        );
        for (var i = 0; i < nothing.Length; i++)
        {
            var index = i * pictures.Spots + j;
            nothing[i] = RateGrid.At(
                curve,
                Math.Log(pictures.Now[index] * (pictures.Runs[index] ? SpotHabit.RestShare : 1))
            );
        }
        return nothing;
    }

    private static void Nitrogen(
        List<TightnessProposal> proposals,
        TightnessBelief belief,
        double pressure,
        double step,
        double seconds,
        double[] cools
    )
    {
        var (size, setting) = (belief.Evidence.Size, belief.Evidence.Setting);
        var readings = ImmutableArray.CreateRange(
            Enumerable.Range(0, 6).Select(i => new NitrogenReading(i * seconds / 5, pressure, size.AmbientK))
        );
        var test = new NitrogenTest(readings, 0)
        {
            StepPa = step,
            ScatterPa = Math.Min(DialScatterPa, step),
            SecondsSinceFilled = 900,
        };
        var floor = NitrogenTable.Of(test, setting.BarometerPa).FloorPaPerS;
        var circuit = CircuitTest.Of(
            test,
            new(new double[FlowGrid.Count], [], null, floor, 0, true, TestQuality.None),
            setting,
            size.AmbientK
        );
        Add(
            proposals,
            TightnessTestKind.NitrogenDecay,
            null,
            null,
            pressure,
            12,
            seconds,
            cools,
            Passes(belief, circuit, floor)
        );
    }

    private static void Hold(
        List<TightnessProposal> proposals,
        TightnessBelief belief,
        double step,
        double seconds,
        double[] cools
    )
    {
        var (size, setting) = (belief.Evidence.Size, belief.Evidence.Setting);
        var readings = ImmutableArray.CreateRange(
            Enumerable
                .Range(0, 6)
                .Select(i => new HoldReading(i * seconds / 5, 60, step, Math.Max(1, 0.6 * step), size.AmbientK))
        );
        var hold = new VacuumHold(readings, 0);
        var odds = new double[WaterGrid.Count];
        Array.Fill(odds, 1.0 / odds.Length);
        var floor = HoldTable.Of(hold, size, setting.BarometerPa, odds).FloorPaPerS;
        var circuit = CircuitTest.Of(
            hold,
            new(new double[FlowGrid.Count], [], null, floor, 0, true, TestQuality.None),
            setting,
            size.AmbientK
        );
        Add(
            proposals,
            TightnessTestKind.VacuumHold,
            null,
            null,
            null,
            10,
            seconds,
            cools,
            Passes(belief, circuit, floor)
        );
    }

    /// <summary>Odds of passing for every picture: half at the floor, as the cube.</summary>
    private static double[] Passes(TightnessBelief belief, CircuitTest test, double floorPaPerS)
    {
        var pictures = belief.Pictures;
        var passes = new double[pictures.Count];
        for (var i = 0; i < passes.Length; i++)
        {
            var sum = 0.0;
            for (var j = 0; j < pictures.Spots; j++)
            {
                if (belief.Models[j].Role == SpotRole.HoseSet)
                    continue;
                var index = i * pictures.Spots + j;
                var factor =
                    Math.Exp(test.LogFactor(pictures.Law[index])) * (pictures.Runs[index] ? SpotHabit.RestShare : 1);
                if (test.Kind == CircuitTestKind.Vacuum && pictures.Shuts[index])
                    factor *= SpotHabit.ShutShare;
                sum += pictures.Now[index] * factor;
            }
            passes[i] = 1 / (1 + Math.Pow(sum / Math.Exp(pictures.LogVolume[i]) / floorPaPerS, 3));
        }
        return passes;
    }

    /// <summary>With liquid inside a week later says only that it is not nearly empty.</summary>
    private static void StandingAgain(List<TightnessProposal> proposals, TightnessBelief belief, double[] cools)
    {
        const double Week = 7 * 86_400;
        var seen = 0.8 * belief.Evidence.Question.ChargeKg;
        var passes = Array.ConvertAll(belief.Pictures.TotalNow, total =>
            1 / (1 + Math.Pow(total * Week / Math.Max(seen, 1e-3), 6))
        );
        Add(proposals, TightnessTestKind.StandingAgain, null, null, null, 5, Week, cools, passes);
    }

    private static void Add(
        List<TightnessProposal> proposals,
        TightnessTestKind kind,
        LeakTestKind? look,
        string? spot,
        double? pressurePa,
        double minutes,
        double waitSeconds,
        double[] cools,
        double[] passes
    )
    {
        double passing = 0,
            both = 0,
            before = 0;
        for (var i = 0; i < cools.Length; i++)
        {
            passing += passes[i];
            both += passes[i] * cools[i];
            before += cools[i];
        }
        if (!(passing > 0))
            return;
        var after = both / passing;
        var odds = passing / cools.Length;
        var gain = odds * Math.Max(0, after - before / cools.Length);
        // A week's wait is worth a quarter of an hour, not a shift.
        var waiting = Math.Min(15, WaitShare * waitSeconds / 60);
        proposals.Add(
            new(kind, look, spot, pressurePa, minutes, waitSeconds, odds, after, gain, gain / (minutes + waiting))
        );
    }
}
