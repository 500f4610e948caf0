using Tightcold.Numerics.Distributions;

namespace Tightcold.Procedures.Hold;

/// <summary>
/// Probability of readings given a curve p₀·b + d, with p₀ integrated out (flat). A gauge that shows steps gives each
/// reading the probability of its step, Φ((y + r/2 − m)/s) − Φ((y − r/2 − m)/s); where the scatter is wider than
/// half a step that is as good as a normal of variance s² + r²/12, and p₀ integrates in closed form.
/// </summary>
public sealed class HoldLikelihood
{
    private const int Points = 21;
    private readonly double[] read;
    private readonly double[] scatter;
    private readonly double[] step;
    private readonly double[] variance;
    private readonly double logScale;
    private readonly bool smooth;

    public HoldLikelihood(ReadOnlySpan<HoldReading> readings)
    {
        read = new double[readings.Length];
        scatter = new double[readings.Length];
        step = new double[readings.Length];
        variance = new double[readings.Length];
        smooth = true;
        for (var i = 0; i < readings.Length; i++)
        {
            read[i] = readings[i].PressurePa;
            scatter[i] = readings[i].ScatterPa;
            step[i] = readings[i].StepPa;
            variance[i] = scatter[i] * scatter[i] + step[i] * step[i] / 12;
            logScale -= 0.5 * Math.Log(2 * Math.PI * variance[i]);
            smooth &= scatter[i] >= 0.5 * step[i];
        }
    }

    public int Count => read.Length;

    /// <summary>ln of the integral over p₀ of the product of the readings' densities, 1/Pa scale.</summary>
    public double LogMarginal(ReadOnlySpan<double> factor, ReadOnlySpan<double> rise) =>
        smooth ? Smooth(factor, rise) : Stepped(factor, rise);

    private double Smooth(ReadOnlySpan<double> b, ReadOnlySpan<double> d)
    {
        double bb = 0,
            br = 0,
            rr = 0;
        for (var i = 0; i < b.Length; i++)
        {
            var residual = read[i] - d[i];
            bb += b[i] * b[i] / variance[i];
            br += b[i] * residual / variance[i];
            rr += residual * residual / variance[i];
        }
        return logScale - 0.5 * (rr - br * br / bb) + 0.5 * Math.Log(2 * Math.PI / bb);
    }

    private double Stepped(ReadOnlySpan<double> b, ReadOnlySpan<double> d)
    {
        // The range of p₀ that no reading makes impossible.
        double low = double.NegativeInfinity,
            high = double.PositiveInfinity;
        for (var i = 0; i < b.Length; i++)
        {
            var reach = 0.5 * step[i] + 5 * scatter[i];
            low = Math.Max(low, (read[i] - d[i] - reach) / b[i]);
            high = Math.Min(high, (read[i] - d[i] + reach) / b[i]);
        }
        if (!(high > low))
            return double.NegativeInfinity;
        var width = (high - low) / Points;
        var sum = 0.0;
        for (var k = 0; k < Points; k++)
        {
            var p0 = low + (k + 0.5) * width;
            var product = 1.0;
            for (var i = 0; i < b.Length && product > 0; i++)
            {
                var off = read[i] - p0 * b[i] - d[i];
                product *=
                    (
                        Normal.Cumulative((off + 0.5 * step[i]) / scatter[i])
                        - Normal.Cumulative((off - 0.5 * step[i]) / scatter[i])
                    ) / step[i];
            }
            sum += product;
        }
        return sum > 0 ? Math.Log(sum * width) : double.NegativeInfinity;
    }

    /// <summary>χ² of the best p₀: how well the curve fits at all.</summary>
    public double Misfit(ReadOnlySpan<double> b, ReadOnlySpan<double> d)
    {
        double bb = 0,
            br = 0,
            rr = 0;
        for (var i = 0; i < b.Length; i++)
        {
            var residual = read[i] - d[i];
            bb += b[i] * b[i] / variance[i];
            br += b[i] * residual / variance[i];
            rr += residual * residual / variance[i];
        }
        return rr - br * br / bb;
    }
}
