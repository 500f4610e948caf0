using Tightcold.Numerics.Interpolation;

namespace Tightcold.Properties.Saturation;

/// <summary>Approximate saturation temperature over ln(p), in equal stretches.</summary>
internal sealed class InverseCurve
{
    private const int Stretches = 24;
    private const int Nodes = 12;

    private readonly double _lower;
    private readonly double _inverseWidth;
    private readonly double[][] _powers = new double[Stretches][];

    /// <param name="lower">ln of the lowest pressure.</param>
    /// <param name="upper">ln of the critical pressure.</param>
    /// <param name="temperature">Saturation temperature of ln(p), K.</param>
    public InverseCurve(double lower, double upper, Func<double, double> temperature)
    {
        _lower = lower;
        var width = (upper - lower) / Stretches;
        _inverseWidth = 1 / width;
        for (var i = 0; i < Stretches; i++)
        {
            double a = lower + (i * width),
                b = a + width;
            double[] values = [.. ChebyshevSeries.Nodes(a, b, Nodes).Select(temperature)];
            _powers[i] = ChebyshevSeries.FromNodeValues(a, b, values).ToPowers();
        }
    }

    public double TemperatureK(double logPressure)
    {
        var place = (logPressure - _lower) * _inverseWidth;
        var stretch = Math.Clamp((int)place, 0, Stretches - 1);
        var y = (2 * (place - stretch)) - 1;
        var powers = _powers[stretch];
        var value = powers[^1];
        for (var k = powers.Length - 2; k >= 0; k--)
            value = Math.FusedMultiplyAdd(value, y, powers[k]);
        return value;
    }
}
