namespace Tightcold.Diagnosis.Leaks;

public enum LeakTestOutcome
{
    Nothing,
    Trace,
    Clear,
}
