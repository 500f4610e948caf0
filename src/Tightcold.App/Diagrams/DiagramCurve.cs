namespace Tightcold.App.Diagrams;

/// <summary>One line of a diagram in SI.</summary>
/// <param name="Kind">dome, isotherm, isentrope, quality or cycle: the class in the drawing.</param>
/// <param name="Label">What it is, with unit; empty for none.</param>
/// <param name="Points">Enthalpy J/kg and pressure Pa, in drawing order.</param>
public sealed record DiagramCurve(
    string Kind,
    string Label,
    IReadOnlyList<(double EnthalpyJPerKg, double PressurePa)> Points
);
