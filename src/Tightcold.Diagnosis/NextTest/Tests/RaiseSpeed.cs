using static Tightcold.Diagnosis.Measurement.Channel;

namespace Tightcold.Diagnosis.NextTest.Tests;

public sealed partial class TestKind
{
    /// <summary>Engine at 2200 turns a minute, gauges read again; at 1500 where none were read yet.</summary>
    public static TestKind RaiseSpeed { get; } =
        new(9, "raise-speed", "Hold a raised engine speed and read both gauges again", 5)
        {
            Begins = "engine-speed",
            Known = [("aid", "none")],
            Plans = Faster,
        };

    private const double RaisedRpm = 2200;

    private static IEnumerable<TestPlan> Faster(TestKind test, Situation now)
    {
        if (now.Evidence.Points.IsEmpty || (now.Lacks(LowSide) && now.Lacks(HighSide)))
            yield return test.At(now.Bare with { EngineRpm = 1500 }, LowSide, HighSide, Vent) with
            {
                Minutes = 10,
            };
        if (now.Evidence.Points.All(point => point.EngineRpm < RaisedRpm - 400))
            yield return test.At(now.Bare with { EngineRpm = RaisedRpm }, LowSide, HighSide, Vent);
    }
}
