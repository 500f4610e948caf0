using System.Collections.Immutable;
using Tightcold.Diagnosis.Leaks;
using Tightcold.LeakTests;
using Tightcold.Numerics.Interpolation;
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
        var rounds = means
            .Looks.Select(look =>
                (Look: look with { Outcome = LeakTestOutcome.Nothing }, Round: new Round(pictures.Count))
            )
            .ToArray();
        var places = new double[pictures.Count];
        for (var j = 0; j < belief.Evidence.Spots.Length; j++)
        {
            var spot = belief.Evidence.Spots[j];
            for (var i = 0; i < places.Length; i++)
                places[i] = RateGrid.Place(AtRest(pictures, i * pictures.Spots + j));
            foreach (var (look, round) in rounds)
            {
                if (!SpotModel.Counts(look, spot.Component, belief.Evidence.Setting))
                    continue;
                var nothing = Nothing(belief, spot, look, places);
                for (var i = 0; i < nothing.Length; i++)
                    round.Nothing[i] *= nothing[i];
                round.Minutes += RoundShare * look.Kind.Minutes;
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
        }
        foreach (var (look, round) in rounds)
            Add(
                proposals,
                TightnessTestKind.WholeSearch,
                look.Kind,
                null,
                look.PressurePa,
                round.Minutes,
                0,
                cools,
                round.Nothing
            );
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
        var cools = TightnessSums.CoolsOver(belief.Evidence.Question);
        return Array.ConvertAll(belief.Pictures.TotalNow, cools.At);
    }

    /// <summary>A look at every place: odds that nothing shows in a picture, and how long it takes.</summary>
    private sealed class Round
    {
        public readonly double[] Nothing;
        public double Minutes;

        public Round(int pictures)
        {
            Nothing = new double[pictures];
            Array.Fill(Nothing, 1);
        }
    }

    private static double AtRest(Pictures pictures, int index) =>
        pictures.Now[index] * (pictures.Runs[index] ? SpotHabit.RestShare : 1);

    /// <summary>Odds that the look shows nothing at a spot, for every picture.</summary>
    /// <param name="places">On the grid of rates, for one curve serves all pictures.</param>
    private static double[] Nothing(TightnessBelief belief, LeakSpot spot, LeakTest look, double[] places)
    {
        var curve = Array.ConvertAll(RateGrid.Values, rate =>
            LeakDetection.Likelihood(look, spot.Component, rate, belief.Evidence.Setting)
        );
        return Array.ConvertAll(places, place => StraightLines.At(curve, place));
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
        var floor = belief.Work.Floors.Of(test, setting.BarometerPa);
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
        var floor = belief.Work.Floors.Of(hold, size, setting.BarometerPa);
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
        // What only seeps follows one law in all pictures.
        var seeps = Math.Exp(test.LogFactor(Pictures.LawOfSeeps));
        var onCar = Array.ConvertAll(belief.Models, model => model.Role != SpotRole.HoseSet);
        for (var i = 0; i < passes.Length; i++)
        {
            var sum = 0.0;
            for (var j = 0; j < pictures.Spots; j++)
            {
                if (!onCar[j])
                    continue;
                var index = i * pictures.Spots + j;
                var factor = pictures.LeaksBefore[index] ? Math.Exp(test.LogFactor(pictures.Law[index])) : seeps;
                if (test.Kind == CircuitTestKind.Vacuum && pictures.Shuts[index])
                    factor *= SpotHabit.ShutShare;
                sum += AtRest(pictures, index) * factor;
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
