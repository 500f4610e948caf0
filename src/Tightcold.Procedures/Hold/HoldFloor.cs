using Tightcold.Numerics.Roots;
using Tightcold.Numerics.Sampling;

namespace Tightcold.Procedures.Hold;

/// <summary>The smallest leak whose rise a hold would have shown.</summary>
public static class HoldFloor
{
    /// <summary>A rise counts as shown when these odds stand against no rise at all.</summary>
    public const double Shown = 0.9;

    private const int RatePoints = 60;

    /// <summary>Plays with scatter, for gauges whose steps are wider than their scatter.</summary>
    private const int Plays = 9;

    /// <summary>
    /// Air inflow, Pa·m³/s, at which a tight system with this leak and nothing else, read at the same moments by the
    /// same gauge, would be told from a still one half the time. The noise-free rise stands at the median of the odds.
    /// </summary>
    public static double Of(ReadOnlySpan<HoldReading> readings, HoldSetting setting)
    {
        var thinned = HoldInference.Thin(readings);
        var stepped = false;
        foreach (var reading in thinned)
            stepped |= reading.ScatterPa < 0.5 * reading.StepPa;
        var plays = stepped ? Plays : 1;
        bool Shows(double logLeak)
        {
            var shown = 0;
            for (var play = 0; play < plays; play++)
                if (Tells(thinned, setting, Math.Exp(logLeak), stepped ? play : null))
                    shown++;
            return 2 * shown >= plays;
        }
        return Math.Exp(
            Halving.Narrow(Shows, Math.Log(HoldPrior.LeastLeakPaM3PerS), Math.Log(HoldPrior.MostLeakPaM3PerS), 14).Yes
        );
    }

    /// <summary>Would this leak be told? Without scatter where the gauge is smooth; else one play of scatter and of the
    /// place within a step, the same plays at every rate.</summary>
    private static bool Tells(HoldReading[] like, HoldSetting setting, double throughputPaM3PerS, int? play)
    {
        var chance = new SeededChance(9091UL * (ulong)(play + 1 ?? 0));
        var phase = chance.Uniform();
        var curve = new HoldCurve(like, setting);
        Span<double> factor = stackalloc double[like.Length],
            rise = stackalloc double[like.Length];
        curve.Still(factor, rise);
        curve.Leak(rise, throughputPaM3PerS, setting.VolumeM3);
        var made = new HoldReading[like.Length];
        for (var i = 0; i < made.Length; i++)
        {
            var step = like[i].StepPa;
            var truth = (Math.Floor(like[0].PressurePa / step) + phase) * step * factor[i] + rise[i];
            made[i] = like[i] with
            {
                PressurePa = play is null
                    ? truth
                    : Math.Round((truth + like[i].ScatterPa * chance.Normal()) / step) * step,
            };
        }
        var seen = new HoldCurve(made, setting);
        var likelihood = new HoldLikelihood(made);
        seen.Still(factor, rise);
        var still = likelihood.LogMarginal(factor, rise);
        double sum = 0,
            top = still;
        Span<double> logs = stackalloc double[RatePoints];
        for (var k = 0; k < RatePoints; k++)
        {
            seen.Still(factor, rise);
            seen.Leak(rise, Rate(k), setting.VolumeM3);
            logs[k] = likelihood.LogMarginal(factor, rise);
            top = Math.Max(top, logs[k]);
        }
        foreach (var log in logs)
            sum += Math.Exp(log - top);
        double rising = 0,
            steady = 0;
        for (var h = 0; h < HoldPrior.Odds.Length; h++)
            if ((HoldExplanation)h is HoldExplanation.Tight or HoldExplanation.TemperatureDrift)
                steady += HoldPrior.Odds[h];
            else
                rising += HoldPrior.Odds[h];
        var odds = rising * sum / RatePoints / (rising * sum / RatePoints + steady * Math.Exp(still - top));
        return odds >= Shown;
    }

    private static double Rate(int k) =>
        HoldPrior.LeastLeakPaM3PerS
        * Math.Pow(HoldPrior.MostLeakPaM3PerS / HoldPrior.LeastLeakPaM3PerS, (k + 0.5) / RatePoints);
}
