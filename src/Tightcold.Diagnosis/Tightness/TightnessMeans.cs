using System.Collections.Immutable;
using Tightcold.Diagnosis.Leaks;

namespace Tightcold.Diagnosis.Tightness;

/// <summary>What the kit could do next.</summary>
/// <param name="Looks">Tests at spots, under the conditions of now, as they would be made.</param>
/// <param name="VacuumStepPa">Step of the absolute vacuum gauge; null when there is only a dial, or none.</param>
/// <param name="NitrogenStepPa">Step of the gauge that a nitrogen test would be read on; null without nitrogen.</param>
/// <param name="NitrogenPa">Test pressure, absolute.</param>
public sealed record TightnessMeans(
    ImmutableArray<LeakTest> Looks,
    double? VacuumStepPa,
    double? NitrogenStepPa,
    double NitrogenPa
)
{
    /// <summary>Refrigerant is inside: what needs its pressure can be done.</summary>
    public bool Charged { get; init; }

    public static readonly TightnessMeans None = new([], null, null, 1.1e6);
}
