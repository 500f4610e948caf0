namespace Tightcold.Properties;

/// <summary>
/// First derivatives of a fast state. <c>ByPressure</c> holds the second input constant, <c>ByInput</c> is with
/// respect to the second input (enthalpy, entropy or temperature, whichever the call was given) at constant pressure.
/// SI units. At a phase boundary they are those of the side the state is counted to.
/// </summary>
public readonly record struct FastDerivatives(
    double TemperatureByPressure,
    double TemperatureByInput,
    double DensityByPressure,
    double DensityByInput,
    double EnthalpyByPressure,
    double EnthalpyByInput,
    double EntropyByPressure,
    double EntropyByInput
);
