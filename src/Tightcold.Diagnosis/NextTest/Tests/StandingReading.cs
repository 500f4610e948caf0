using Tightcold.Diagnosis.Inference;
using Tightcold.Quantities;

namespace Tightcold.Diagnosis.NextTest.Tests;

public sealed partial class TestKind
{
    /// <summary>Engine off until all is of one temperature, both gauges read.</summary>
    public static TestKind StandingReading { get; } =
        new(13, "standing-reading", "Stop the engine, let it rest an hour, read both gauges", 60)
        {
            Entry = "standing-reading",
            Runs = false,
            WhenEmpty = true,
            Shows = QuantityKind.GaugePressure,
            Plans = (test, now) => now.Evidence.Standing.IsEmpty ? [test.AtRest(Rested)] : [],
        };

    private const double StandingSigmaPa = 0.15e5;

    private static Outcome Rested(SampledCars cars, int i, CarSimulator.Car car)
    {
        var points = cars.Posterior.Data.Evidence.Points;
        var (pressure, saturation) = CarSimulator.Standing(car, points.IsEmpty ? 298.15 : points[^1].AmbientK);
        var thermal = (pressure < 0.97 * saturation ? 0.0035 : 0.029) * pressure;
        return new([pressure], [Math.Sqrt((StandingSigmaPa * StandingSigmaPa) + (thermal * thermal))], []);
    }
}
