namespace Tightcold.Properties.MoistAir;

/// <summary>The temperature at which air of given water content would be saturated.</summary>
internal static class DewPoint
{
    private const int MaxIterations = 60;

    // The logarithms' rounding is worth some 1e-11 K.
    private const double SettledK = 1e-9;

    /// <summary>Dew or frost point, K; null below the lowest temperature of the formulation.</summary>
    /// <exception cref="FlashDidNotConvergeException">No temperature settles.</exception>
    public static double? At(double psi, double pressurePa)
    {
        if (psi <= HumidAirFormulation.SaturatedMoleFraction(HumidAirFormulation.MinTemperatureK, pressurePa))
            return null;
        // Newton in ln(psi) over 1/T with the slope of the vapour pressure alone: the enhancement factor hardly moves.
        var target = Math.Log(psi);
        var temperature = WaterVapour.SaturationTemperatureK(psi * pressurePa);
        var last = double.NaN;
        for (var i = 0; i < MaxIterations; i++)
        {
            var value = Math.Log(HumidAirFormulation.SaturatedMoleFraction(temperature, pressurePa));
            var step = 1e-5 * temperature;
            var slope =
                (
                    Math.Log(HumidAirFormulation.VapourPressurePa(temperature + step))
                    - Math.Log(HumidAirFormulation.VapourPressurePa(temperature))
                ) / step;
            var change = (target - value) / slope;
            var next = Math.Max(temperature + change, HumidAirFormulation.MinTemperatureK);
            // At the triple point liquid and ice meet in a corner; halve steps that keep crossing it.
            if (i > 10)
                next = 0.5 * (next + temperature);
            change = Math.Abs(next - temperature);
            if (change < SettledK)
                return next;
            (temperature, last) = (next, change);
        }

        throw new FlashDidNotConvergeException(
            "Humid air",
            FormattableString.Invariant($"a mole fraction of water of {psi:G6} at {pressurePa:G6} Pa"),
            last / temperature,
            "the dew point did not settle"
        );
    }
}
