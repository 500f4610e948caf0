namespace Tightcold.Properties.Data;

/// <summary>A short published (or fitted) saturation correlation; a starting guess, never an answer.</summary>
internal sealed record Ancillary(string Form, double ReducingTemperatureK, double ReducingValue, double[] N, double[] T)
{
    public double Evaluate(double temperatureK)
    {
        var theta = Math.Max(1 - (temperatureK / ReducingTemperatureK), 0);
        var sum = 0.0;
        for (var i = 0; i < N.Length; i++)
            sum += N[i] * Math.Pow(theta, T[i]);
        return Form switch
        {
            "linear" => ReducingValue * (1 + sum),
            "exponential" => ReducingValue * Math.Exp(sum),
            _ => ReducingValue * Math.Exp(sum * ReducingTemperatureK / temperatureK),
        };
    }
}
