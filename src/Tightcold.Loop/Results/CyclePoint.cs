using Tightcold.Quantities;

namespace Tightcold.Loop.Results;

/// <summary>One corner of the cycle on the pressure-enthalpy diagram.</summary>
/// <param name="Name">Where it is, in the trade's words.</param>
/// <param name="PressurePa">Absolute, Pa.</param>
/// <param name="EnthalpyJPerKg">J/kg, zero of the refrigerant's reference equation.</param>
/// <param name="TemperatureK">K.</param>
public readonly record struct CyclePoint(
    [Said] string Name,
    double PressurePa,
    double EnthalpyJPerKg,
    double TemperatureK
);
