using Tightcold.LeakTests;
using Tightcold.Quantities;

namespace Tightcold.Diagnosis.Tightness;

/// <summary>A test that would lift the odds.</summary>
/// <param name="Look">For searches and spot checks, which look; else null.</param>
/// <param name="Spot">For a spot check, where; else null.</param>
/// <param name="PressurePa">Absolute pressure it needs; null when any does.</param>
/// <param name="Minutes">Of a person's hands and eyes.</param>
/// <param name="WaitSeconds">Besides, nobody need stand there.</param>
/// <param name="Passes">Odds that it shows nothing.</param>
/// <param name="OddsIfPassed">Odds of tight then.</param>
/// <param name="Gain">Expected lift: odds of passing times what passing adds.</param>
/// <param name="GainPerMinute">Per minute of work, waiting counted at a fiftieth.</param>
public sealed record TightnessProposal(
    TightnessTestKind Kind,
    LeakTestKind? Look,
    [Said] string? Spot,
    double? PressurePa,
    double Minutes,
    double WaitSeconds,
    double Passes,
    double OddsIfPassed,
    double Gain,
    double GainPerMinute
);
