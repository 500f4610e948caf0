namespace Tightcold.Procedures.Standing;

/// <summary>A mass with its standard deviation, kg, and its parts.</summary>
public readonly record struct MassBelief(double MeanKg, double SigmaKg, double InVapourKg, double InOilKg);
