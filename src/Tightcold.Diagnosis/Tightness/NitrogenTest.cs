using System.Collections.Immutable;

namespace Tightcold.Diagnosis.Tightness;

/// <summary>Dry nitrogen shut in and watched.</summary>
/// <param name="Readings">At least two, apart in time.</param>
/// <param name="Time">When it began, on the clock of all evidence.</param>
public sealed record NitrogenTest(ImmutableArray<NitrogenReading> Readings, double Time)
{
    /// <summary>Smallest step of the gauge, Pa.</summary>
    public double StepPa { get; init; } = 10_000;

    /// <summary>Standard deviation between two readings of one gauge, without its step, Pa.</summary>
    public double ScatterPa { get; init; } = 3_000;

    /// <summary>Standard deviation of the gauge's scale error: 0.01 to 0.05.</summary>
    public double GainSpread { get; init; } = 0.02;

    /// <summary>Change of the gauge by its own warmth over the test, as a share of the reading; one standard
    /// deviation.</summary>
    public double DriftShare { get; init; } = 0.0015;

    /// <summary>From the end of filling to the first reading; 0 when nobody wrote it down.</summary>
    public double SecondsSinceFilled { get; init; }

    /// <summary>Hoses and gauge set stayed on.</summary>
    public bool WithHoses { get; init; } = true;

    /// <summary>Read on a dial.</summary>
    public bool OnDial { get; init; }
}
