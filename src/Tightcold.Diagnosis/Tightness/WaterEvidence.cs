using System.Collections.Immutable;

namespace Tightcold.Diagnosis.Tightness;

/// <summary>What speaks of water inside, besides the holds.</summary>
/// <param name="OpenSeconds">Open to air since it was last known to be dry.</param>
/// <param name="VapourKgPerM3">Water in that air; 0.010 at 20 °C and 58 %.</param>
/// <param name="NewDrier">A new drier or accumulator was fitted last.</param>
/// <param name="PumpedSeconds">Below the boiling pressure of water under the pump.</param>
/// <param name="PartTemperatureK">Coldest part while pumping; null when not taken.</param>
public sealed record WaterEvidence(
    double OpenSeconds,
    double VapourKgPerM3,
    bool NewDrier,
    double PumpedSeconds,
    double? PartTemperatureK
)
{
    /// <summary>Air or rain stood in it with no end shut: a circuit found at 0 bar gauge.</summary>
    public bool FoundOpen { get; init; }

    /// <summary>Pump-down: seconds since the pump was started, and absolute pressure.</summary>
    public ImmutableArray<(double Seconds, double PressurePa)> PumpDown { get; init; } = [];

    /// <summary>Nothing written down.</summary>
    public static readonly WaterEvidence Nothing = new(3600, 0.010, false, 0, null);
}
