namespace Tightcold.Properties.Transport;

/// <summary>sigma = sum n (1 - T/Tc)^e (Mulero, Cachadina, Parra 2012), N/m.</summary>
internal sealed record SurfaceTension(double CriticalTemperatureK, double[] N, double[] Exponent)
{
    public double Evaluate(double temperatureK)
    {
        var theta = Math.Max(0, 1 - (temperatureK / CriticalTemperatureK));
        var sum = 0.0;
        for (var i = 0; i < N.Length; i++)
            sum += N[i] * Math.Pow(theta, Exponent[i]);
        return sum;
    }
}
