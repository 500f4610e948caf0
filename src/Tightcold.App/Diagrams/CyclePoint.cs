namespace Tightcold.App.Diagrams;

/// <summary>A corner of a cycle on the pressure-enthalpy diagram.</summary>
/// <param name="Label">A short name, such as "1" or "suction".</param>
/// <param name="PressurePa">Absolute pressure, Pa.</param>
/// <param name="EnthalpyJPerKg">Enthalpy, J/kg, on the fluid's reference.</param>
public sealed record CyclePoint(string Label, double PressurePa, double EnthalpyJPerKg);
