namespace Tightcold.Diagnosis.Tightness;

/// <summary>A curve that may be added with an unknown amount ≥ 0, half-normal before the readings.</summary>
/// <param name="Weight">Odds before the readings.</param>
/// <param name="Curve">Pa per unit of the amount; null for nothing.</param>
/// <param name="Scale">Of the half-normal.</param>
internal readonly record struct TrendShape(double Weight, double[]? Curve, double Scale);
