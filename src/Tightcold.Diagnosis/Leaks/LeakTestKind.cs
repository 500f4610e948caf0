namespace Tightcold.Diagnosis.Leaks;

/// <summary>Tests that point at a spot.</summary>
public enum LeakTestKind
{
    UvLamp,
    Detector,
    Soap,
    CoverAndWait,
    NitrogenAndSoap,
    OilTrace,
    DrainSniff,
    DrainDye,
}
