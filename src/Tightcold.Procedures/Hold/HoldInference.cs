using Tightcold.Numerics.Sampling;

namespace Tightcold.Procedures.Hold;

/// <summary>Compares the explanations of a hold by Bayes' rule over their parameters.</summary>
public static class HoldInference
{
    /// <summary>A logger's readings a second apart repeat each other; more than this many, evenly thinned, add no
    /// independent knowledge. Assumed.</summary>
    private const int MostReadings = 24;

    /// <summary>χ² per reading above which even the best explanation is called a misfit.</summary>
    private const double MisfitPerReading = 4;

    /// <param name="readings">At least two, in the order of time, apart in time.</param>
    /// <param name="hosesAlone">A hold of hoses and gauge set alone, or empty.</param>
    public static HoldOdds Of(
        ReadOnlySpan<HoldReading> readings,
        HoldSetting setting,
        ReadOnlySpan<HoldReading> hosesAlone = default
    )
    {
        Check(readings, setting);
        var thinned = Thin(readings);
        var curve = new HoldCurve(thinned, setting);
        var likelihood = new HoldLikelihood(thinned);
        HoldCurve? hoseCurve = null;
        HoldLikelihood? hoseLikelihood = null;
        if (hosesAlone.Length >= 2)
        {
            var hoses = Thin(hosesAlone);
            hoseCurve = new HoldCurve(hoses, setting);
            hoseLikelihood = new HoldLikelihood(hoses);
        }

        var logEvidence = new double[HoldPrior.Odds.Length];
        var holes = new List<(double Throughput, double Weight, int Explanation)>();
        var fit = double.PositiveInfinity;
        for (var h = 0; h < logEvidence.Length; h++)
        {
            var model = new HoldModel((HoldExplanation)h, curve, likelihood, hoseCurve, hoseLikelihood);
            logEvidence[h] =
                Math.Log(HoldPrior.Odds[h])
                + Evidence(model, setting.Seed + (ulong)h, h, holes, thinned.Length, likelihood, ref fit);
        }
        return Gather(logEvidence, holes, curve, likelihood, thinned, fit);
    }

    private static double Evidence(
        HoldModel model,
        ulong seed,
        int h,
        List<(double, double, int)> holes,
        int count,
        HoldLikelihood likelihood,
        ref double fit
    )
    {
        Span<double> factor = stackalloc double[count],
            rise = stackalloc double[count];
        if (model.Dimensions == 0)
        {
            model.Expect([], factor, rise);
            fit = Math.Min(fit, likelihood.Misfit(factor, rise));
            return model.Evaluate([]);
        }
        var samples = EvidenceSampler.Run(model, seed);
        var best = 0;
        for (var i = 0; i < samples.Count; i++)
        {
            if (samples.Weights[i] > samples.Weights[best])
                best = i;
            if (samples.Weights[i] > 1e-9 && model.Throughput(samples.Point(i)) is > 0 and var throughput)
                holes.Add((throughput, samples.Weights[i], h));
        }
        model.Expect(samples.Point(best), factor, rise);
        fit = Math.Min(fit, likelihood.Misfit(factor, rise));
        return samples.LogEvidence;
    }

    private static HoldOdds Gather(
        double[] logEvidence,
        List<(double Throughput, double Weight, int Explanation)> holes,
        HoldCurve curve,
        HoldLikelihood likelihood,
        HoldReading[] readings,
        double fit
    )
    {
        var top = logEvidence.Max();
        var odds = new double[logEvidence.Length];
        // Every explanation impossible (readings that contradict their own step): the prior says so honestly.
        for (var h = 0; h < odds.Length; h++)
            odds[h] = double.IsNegativeInfinity(top) ? HoldPrior.Odds[h] : Math.Exp(logEvidence[h] - top);
        var sum = odds.Sum();
        for (var h = 0; h < odds.Length; h++)
            odds[h] /= sum;

        var floor = HoldFloor.Of(readings, curve.Setting);
        holes.Sort((a, b) => a.Throughput.CompareTo(b.Throughput));
        double[] throughputs = [.. holes.Select(hole => hole.Throughput)];
        double[] weights = [.. holes.Select(hole => hole.Weight * odds[hole.Explanation])];
        double At(double share) =>
            holes.Count > 0 ? Quantile.Of(throughputs, weights, share) : HoldPrior.MostLeakPaM3PerS;
        var seen = holes.Where(hole => hole.Throughput > 0.5 * floor).Sum(hole => hole.Weight * odds[hole.Explanation]);
        return new(
            [.. odds],
            At(0.05),
            At(0.5),
            At(0.95),
            floor,
            Math.Clamp(seen, 0, 1),
            !double.IsNegativeInfinity(top) && fit <= MisfitPerReading * likelihood.Count,
            curve.TemperatureKnown,
            curve.WaterPa
        );
    }

    internal static HoldReading[] Thin(ReadOnlySpan<HoldReading> readings)
    {
        if (readings.Length <= MostReadings)
            return readings.ToArray();
        var thinned = new HoldReading[MostReadings];
        for (var i = 0; i < MostReadings; i++)
            thinned[i] = readings[(int)Math.Round(i * (readings.Length - 1.0) / (MostReadings - 1))];
        return thinned;
    }

    private static void Check(ReadOnlySpan<HoldReading> readings, HoldSetting setting)
    {
        if (readings.Length < 2)
            throw new ArgumentOutOfRangeException(
                nameof(readings),
                readings.Length,
                "a hold needs at least two readings"
            );
        if (!(readings[^1].SecondsSinceStart > readings[0].SecondsSinceStart))
            throw new ArgumentOutOfRangeException(nameof(readings), "the readings must lie apart in time");
        for (var i = 0; i < readings.Length; i++)
        {
            if (i > 0 && !(readings[i].SecondsSinceStart >= readings[i - 1].SecondsSinceStart))
                throw new ArgumentOutOfRangeException(nameof(readings), "the readings must be in the order of time");
            if (!(readings[i].PressurePa >= 0 && readings[i].ScatterPa > 0 && readings[i].StepPa > 0))
                throw new ArgumentOutOfRangeException(
                    nameof(readings),
                    "pressures from zero, steps and scatters above zero are wanted"
                );
        }
        if (!(setting.VolumeM3 > 0 && setting.HoseVolumeM3 > 0 && setting.BarometerPa > 0))
            throw new ArgumentOutOfRangeException(nameof(setting), "volumes and barometer above zero are wanted");
    }
}
