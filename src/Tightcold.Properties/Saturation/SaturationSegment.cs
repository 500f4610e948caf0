using Tightcold.Numerics.Interpolation;

namespace Tightcold.Properties.Saturation;

/// <summary>The series of one stretch of the saturation line, all in x = sqrt(1 - T/Tc).</summary>
internal sealed record SaturationSegment(
    ChebyshevSeries Liquid,
    ChebyshevSeries LogVapour,
    ChebyshevSeries LogPressure,
    ChebyshevSeries LiquidEnthalpy,
    ChebyshevSeries VapourEnthalpy,
    ChebyshevSeries LiquidEntropy,
    ChebyshevSeries VapourEntropy)
{
    public SaturationEstimate Estimate(double x, double temperatureK) => new(
        temperatureK,
        Math.Exp(LogPressure.Evaluate(x)),
        Liquid.Evaluate(x),
        Math.Exp(LogVapour.Evaluate(x)),
        LiquidEnthalpy.Evaluate(x),
        VapourEnthalpy.Evaluate(x),
        LiquidEntropy.Evaluate(x),
        VapourEntropy.Evaluate(x));
}
