using Tightcold.Numerics.Distributions;
using Tightcold.Numerics.Sampling;

namespace Tightcold.Procedures.Hold;

/// <summary>One explanation as a likelihood over its own parameters, each standard normal before the
/// readings.</summary>
public readonly struct HoldModel(
    HoldExplanation explanation,
    HoldCurve curve,
    HoldLikelihood readings,
    HoldCurve? hoseCurve,
    HoldLikelihood? hoseReadings
) : ILogLikelihood
{
    public int Dimensions =>
        (HoldPrior.HasLeak(explanation) ? 1 : 0)
        + (HoldPrior.HasOilGas(explanation) ? 2 : 0)
        + (HoldPrior.HasWater(explanation) ? 2 : 0)
        + (HoldPrior.HasDrift(explanation) ? (curve.TemperatureKnown ? 1 : 2) : 0);

    /// <summary>Air inflow that the first parameter stands for, Pa·m³/s; 0 where the explanation has no hole.</summary>
    public double Throughput(ReadOnlySpan<double> at) =>
        HoldPrior.HasLeak(explanation) ? LogUniform(at[0], HoldPrior.LeastLeakPaM3PerS, HoldPrior.MostLeakPaM3PerS) : 0;

    public double Evaluate(ReadOnlySpan<double> standardNormal)
    {
        Span<double> factor = stackalloc double[readings.Count],
            rise = stackalloc double[readings.Count];
        Expect(standardNormal, factor, rise);
        return readings.LogMarginal(factor, rise) + HosesAlone(Throughput(standardNormal));
    }

    /// <summary>Fills the curve that these parameters stand for.</summary>
    public void Expect(ReadOnlySpan<double> at, Span<double> factor, Span<double> rise)
    {
        curve.Still(factor, rise);
        var next = 0;
        if (HoldPrior.HasLeak(explanation))
            curve.Leak(rise, Throughput(at[next++..]), curve.Setting.VolumeM3);
        if (HoldPrior.HasOilGas(explanation))
            curve.OilGas(
                rise,
                LogUniform(at[next++], HoldPrior.LeastOilGasPa, HoldPrior.MostOilGasPa),
                LogUniform(at[next++], HoldPrior.LeastOilSeconds, HoldPrior.MostOilSeconds)
            );
        if (HoldPrior.HasWater(explanation))
            curve.Moisture(
                rise,
                LogUniform(at[next++], HoldPrior.LeastWaterShare, 1),
                LogUniform(at[next++], HoldPrior.LeastWaterSeconds, HoldPrior.MostWaterSeconds)
            );
        if (HoldPrior.HasDrift(explanation))
        {
            var beta = LogUniform(at[next++], HoldPrior.LeastDriftPerK, HoldPrior.MostDriftPerK);
            curve.Drift(factor, beta, curve.TemperatureKnown ? 0 : HoldPrior.UnknownDriftK * at[next]);
        }
    }

    /// <summary>ln L of a hold of hoses and gauge set alone: it rises by their own leak only.</summary>
    private double HosesAlone(double throughputPaM3PerS)
    {
        if (hoseCurve is null || hoseReadings is null)
            return 0;
        Span<double> factor = stackalloc double[hoseReadings.Count],
            rise = stackalloc double[hoseReadings.Count];
        hoseCurve.Still(factor, rise);
        if (explanation == HoldExplanation.HoseLeak)
            hoseCurve.Leak(rise, throughputPaM3PerS, hoseCurve.Setting.HoseVolumeM3);
        return hoseReadings.LogMarginal(factor, rise);
    }

    internal static double LogUniform(double standardNormal, double least, double most) =>
        least * Math.Exp(Math.Log(most / least) * Normal.Cumulative(standardNormal));
}
