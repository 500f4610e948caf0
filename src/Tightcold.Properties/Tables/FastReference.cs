namespace Tightcold.Properties.Tables;

/// <summary>Answers in the shape of the fast layer from the reference equations, where the tables leave off near the
/// critical point.</summary>
internal static class FastReference
{
    // Steps of the differences along the saturation line and inside the dome, where no closed form is at hand.
    private const double RelativeStep = 1e-6;

    public static FastSaturation Saturation(in SaturationState s) =>
        new(
            s.TemperatureK,
            s.PressurePa,
            s.LiquidDensityKgPerM3,
            s.VapourDensityKgPerM3,
            s.LiquidEnthalpyJPerKg,
            s.VapourEnthalpyJPerKg,
            s.LiquidEntropyJPerKgK,
            s.VapourEntropyJPerKgK
        );

    public static FastSaturation SaturationAtTemperature(
        Fluid fluid,
        double temperatureK,
        out FastSaturation byTemperature
    )
    {
        var state = Saturation(fluid.SaturationAtTemperature(temperatureK));
        var step = RelativeStep * temperatureK;
        byTemperature = Slope(state, Saturation(fluid.SaturationAtTemperature(temperatureK - step)), step);
        return state;
    }

    public static FastSaturation SaturationAtPressure(Fluid fluid, double pressurePa, out FastSaturation byPressure)
    {
        var state = Saturation(fluid.SaturationAtPressure(pressurePa));
        var step = RelativeStep * pressurePa;
        byPressure = Slope(state, Saturation(fluid.SaturationAtPressure(pressurePa - step)), step);
        return state;
    }

    public static FastState State(Fluid fluid, TableInput input, double pressurePa, double z)
    {
        var state = Full(fluid, input, pressurePa, z);
        return new FastState(
            state.TemperatureK,
            pressurePa,
            state.DensityKgPerM3,
            state.EnthalpyJPerKg,
            state.EntropyJPerKgK,
            state.Quality,
            state.Phase
        );
    }

    public static FastState State(
        Fluid fluid,
        TableInput input,
        double pressurePa,
        double z,
        out FastDerivatives derivatives
    )
    {
        var state = Full(fluid, input, pressurePa, z);
        var result = new FastState(
            state.TemperatureK,
            pressurePa,
            state.DensityKgPerM3,
            state.EnthalpyJPerKg,
            state.EntropyJPerKgK,
            state.Quality,
            state.Phase
        );
        if (state.CpJPerKgK is { } cp && state.JouleThomsonKPerPa is { } jouleThomson && state.Quality is null)
        {
            derivatives = SinglePhase(state, input, cp, jouleThomson);
            return result;
        }

        // Inside the dome: differences towards lower pressure, where the dome is wider, and towards the middle.
        var stepP = RelativeStep * pressurePa;
        var low = Full(fluid, input, pressurePa - stepP, z);
        var stepZ = RelativeStep * Math.Abs(z);
        var other = Full(fluid, input, pressurePa, z - stepZ);
        derivatives = new FastDerivatives(
            (state.TemperatureK - low.TemperatureK) / stepP,
            (state.TemperatureK - other.TemperatureK) / stepZ,
            (state.DensityKgPerM3 - low.DensityKgPerM3) / stepP,
            (state.DensityKgPerM3 - other.DensityKgPerM3) / stepZ,
            (state.EnthalpyJPerKg - low.EnthalpyJPerKg) / stepP,
            (state.EnthalpyJPerKg - other.EnthalpyJPerKg) / stepZ,
            (state.EntropyJPerKgK - low.EntropyJPerKgK) / stepP,
            (state.EntropyJPerKgK - other.EntropyJPerKgK) / stepZ
        );
        return result;
    }

    private static FastDerivatives SinglePhase(in FluidState state, TableInput input, double cp, double jouleThomson)
    {
        var t = state.TemperatureK;
        var v = 1 / state.DensityKgPerM3;
        // At constant T and at constant p: from dp = p_T dT + p_rho drho.
        var densityByP = 1 / state.PressureByDensityAtTemperature;
        var densityByT = -state.PressureByTemperatureAtDensity * densityByP;
        var enthalpyByP = -cp * jouleThomson;
        var entropyByP = (enthalpyByP - v) / t;
        switch (input)
        {
            case TableInput.Temperature:
                return new FastDerivatives(0, 1, densityByP, densityByT, enthalpyByP, cp, entropyByP, cp / t);
            case TableInput.Enthalpy:
                return new FastDerivatives(
                    jouleThomson,
                    1 / cp,
                    densityByP + (densityByT * jouleThomson),
                    densityByT / cp,
                    0,
                    1,
                    -v / t,
                    1 / t
                );
            default:
                var temperatureByP = -entropyByP * t / cp;
                return new FastDerivatives(
                    temperatureByP,
                    t / cp,
                    densityByP + (densityByT * temperatureByP),
                    densityByT * t / cp,
                    v,
                    t,
                    0,
                    1
                );
        }
    }

    private static FluidState Full(Fluid fluid, TableInput input, double pressurePa, double z) =>
        input switch
        {
            TableInput.Enthalpy => fluid.AtPressureEnthalpy(pressurePa, z),
            TableInput.Entropy => fluid.AtPressureEntropy(pressurePa, z),
            _ => fluid.AtTemperaturePressure(z, pressurePa),
        };

    private static FastSaturation Slope(in FastSaturation high, in FastSaturation low, double step) =>
        new(
            (high.TemperatureK - low.TemperatureK) / step,
            (high.PressurePa - low.PressurePa) / step,
            (high.LiquidDensityKgPerM3 - low.LiquidDensityKgPerM3) / step,
            (high.VapourDensityKgPerM3 - low.VapourDensityKgPerM3) / step,
            (high.LiquidEnthalpyJPerKg - low.LiquidEnthalpyJPerKg) / step,
            (high.VapourEnthalpyJPerKg - low.VapourEnthalpyJPerKg) / step,
            (high.LiquidEntropyJPerKgK - low.LiquidEntropyJPerKgK) / step,
            (high.VapourEntropyJPerKgK - low.VapourEntropyJPerKgK) / step
        );
}
