using System.Collections.Concurrent;

namespace Tightcold.Diagnosis.Tightness;

/// <summary>What the tests that may come next would see, each worked out once: they hang on the kit and the air, not on what is
/// believed.</summary>
internal sealed class TestFloors
{
    private readonly ConcurrentDictionary<(double, double, double, double, double), double> holds = new(),
        nitrogen = new();

    /// <summary>Pa/s, of a hold with readings of one pressure and temperature.</summary>
    public double Of(VacuumHold hold, CircuitSize size, double barometerPa) =>
        holds.GetOrAdd(
            (
                hold.Readings[0].PressurePa,
                hold.Readings[0].StepPa,
                hold.Readings[^1].SecondsSinceStart,
                size.AmbientK,
                barometerPa
            ),
            _ => HoldTable.FloorOf(hold, size, barometerPa)
        );

    /// <summary>Pa/s, of a pressure test with readings of one pressure and temperature.</summary>
    public double Of(NitrogenTest test, double barometerPa) =>
        nitrogen.GetOrAdd(
            (
                test.Readings[0].PressurePa,
                test.StepPa,
                test.Readings[^1].SecondsSinceStart,
                test.Readings[0].TemperatureK ?? 0,
                barometerPa
            ),
            _ => NitrogenTable.FloorOf(test, barometerPa)
        );
}
