using System.Collections.Immutable;
using Tightcold.Procedures.Hold;

namespace Tightcold.Diagnosis.Tightness;

/// <summary>One hold with the pump shut off.</summary>
/// <param name="Readings">At least two, apart in time.</param>
/// <param name="Time">When it began, on the clock of all evidence.</param>
public sealed record VacuumHold(ImmutableArray<HoldReading> Readings, double Time)
{
    /// <summary>Read on a dial, with the barometer added: shows gross leaks only.</summary>
    public bool OnDial { get; init; }

    /// <summary>Standard deviation of the gauge's scale error: 0.10 to 0.15 for absolute gauges.</summary>
    public double GainSpread { get; init; } = 0.12;

    /// <summary>Hoses and gauge set alone, shut off from the car.</summary>
    public bool HosesAlone { get; init; }

    /// <summary>Hoses and gauge set were part of what was held.</summary>
    public bool WithHoses { get; init; } = true;
}
