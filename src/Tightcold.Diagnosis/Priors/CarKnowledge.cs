using Tightcold.Loop.Designs;

namespace Tightcold.Diagnosis.Priors;

/// <summary>What is known of a car's circuit; null where nobody knows, and then every kind is weighed.</summary>
/// <param name="Refrigerant">R134a, R1234yf or R152a.</param>
public sealed record CarKnowledge(string Refrigerant)
{
    /// <summary>Label charge, kg.</summary>
    public double? LabelChargeKg { get; init; }

    public CompressorKind? Compressor { get; init; }

    public ExpansionKind? Expansion { get; init; }

    /// <summary>Internal volume, m3.</summary>
    public double? InternalVolumeM3 { get; init; }

    public int Evaporators { get; init; } = 1;

    /// <summary>Oil, kg.</summary>
    public double? OilKg { get; init; }
}
