namespace Tightcold.SecondWorld.Nitrogen;

/// <summary>A reading of the test: gauge pressure as shown, thermometer as shown.</summary>
public readonly record struct NitrogenRead(double Minute, double ShownGaugePa, double ShownC);

/// <summary>A nitrogen test with its truth.</summary>
public sealed record NitrogenCase
{
    public required ulong Seed { get; init; }
    public required double VolumeM3 { get; init; }
    public required double HoseVolumeM3 { get; init; }

    /// <summary>What the circuit loses as refrigerant, g/yr at the reference of <see cref="Leaks.Leak"/>.</summary>
    public required double CircuitGramPerYear { get; init; }
    public required double HoseGramPerYear { get; init; }

    /// <summary>Fall by leaking alone over the test, Pa.</summary>
    public required double LeakFallPa { get; init; }
    public required double StepPa { get; init; }
    public required double DayC { get; init; }
    public required IReadOnlyList<NitrogenRead> Reads { get; init; }
}
