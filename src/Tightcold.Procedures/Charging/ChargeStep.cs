namespace Tightcold.Procedures.Charging;

/// <summary>One container in a charge plan.</summary>
/// <param name="Container">Which.</param>
/// <param name="DrawKg">How much leaves it.</param>
/// <param name="StopGrossKg">Close the valve when the scale shows this; null when it was not weighed.</param>
/// <param name="LeftKg">What stays inside.</param>
/// <param name="Emptied">Drawn down to its heel, or stopped before.</param>
/// <param name="HeelLeastKg">What it cannot give, at the least.</param>
/// <param name="HeelMostKg">What it cannot give, at the most.</param>
public readonly record struct ChargeStep(
    string Container,
    double DrawKg,
    double? StopGrossKg,
    double LeftKg,
    bool Emptied,
    double HeelLeastKg,
    double HeelMostKg
);
