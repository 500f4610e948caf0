namespace Tightcold.Diagnosis.Measurement;

/// <summary>What eyes can tell.</summary>
public enum SeenKind
{
    Glass,
    Frost,
    Clutch,
    Cycles,
}
