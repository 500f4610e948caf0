namespace Tightcold.Diagnosis.Tightness;

/// <summary>Kinds of evidence on the whole circuit.</summary>
internal enum CircuitTestKind
{
    Loss,
    Vacuum,
    Nitrogen,
}
