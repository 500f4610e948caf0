using Tightcold.Diagnosis.Leaks;

namespace Tightcold.Diagnosis.Tightness;

/// <summary>What one hold or pressure test says by itself, in the same words for both: a rate and a floor.</summary>
/// <param name="Kind">Hold or nitrogen.</param>
/// <param name="Index">Its place in the evidence.</param>
/// <param name="InflowPaM3PerS">Gas through all holes of what was tested, at the test's own pressures, V·dp/dt.</param>
/// <param name="RateKgPerS">The same holes with refrigerant at rest, kg/s: flow laws and volume are part of the
/// spread.</param>
/// <param name="FloorKgPerS">Rate at rest that it would have shown half the time; what lies below could not be
/// seen.</param>
/// <param name="FloorHighKgPerS">The same for the law of flow and the volume that hide most (19 of 20).</param>
/// <param name="ShowsLeak">Odds of a leak that shows, from even odds.</param>
/// <param name="Quality">What is wrong with the test, or nothing.</param>
/// <param name="SinceLastChange">Made after the last repair or opening: it speaks of the car as it is.</param>
public sealed record TestReading(
    TightnessTestKind Kind,
    int Index,
    LeakQuantiles InflowPaM3PerS,
    LeakQuantiles RateKgPerS,
    double FloorKgPerS,
    double FloorHighKgPerS,
    double ShowsLeak,
    TestQuality Quality,
    bool SinceLastChange
)
{
    /// <summary>From these odds on a test counts as failed. A vacuum that rises has more innocent reasons than a
    /// pressure that falls (gas from oil and walls, water), so it takes twice as much.</summary>
    public const double FailedFrom = 0.9,
        HoldFailedFrom = 0.95;

    public bool Failed => ShowsLeak >= (Kind == TightnessTestKind.VacuumHold ? HoldFailedFrom : FailedFrom);
}
