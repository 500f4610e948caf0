using Tightcold.Loop.Calibration;
using Tightcold.Loop.Designs;
using Tightcold.Loop.Results;

namespace Tightcold.Loop.Tests.Calibration;

/// <summary>
/// Synthetic cars: drawn from the class, read with a shop's instruments (1.6 gauges, a 1 K probe), then foretold on
/// another day. The truth is known because we made it; nothing here is measured.
/// </summary>
public sealed class CarCalibrationTests
{
    private const int Cars = 12;

    private static readonly LoopDesign Class = LoopDesigns.Of(
        SizeClass.Medium,
        CompressorKind.FixedWithFinThermostat,
        ExpansionKind.ExpansionValve,
        "R134a"
    );

    private static readonly LoopConditions[] Days =
    [
        LoopConditions.DoorsOpen(305.15, 0.5),
        LoopConditions.DoorsOpen(308.15, 0.4, 850),
        LoopConditions.DoorsOpen(311.15, 0.35, 2000),
    ];

    private static readonly LoopConditions Another = LoopConditions.DoorsOpen(309.15, 0.3, 1200);

    [Fact]
    public void Three_sound_readings_foretell_another_day_of_that_car_better_than_its_class_does()
    {
        double byClass = 0,
            byCar = 0;
        foreach (var (truth, car) in Calibrated())
        {
            var wanted = Read(truth, Another);
            byClass += Miss(Read(Class, Another), wanted);
            byCar += Miss(Read(car.Design, Another), wanted);
        }

        Assert.True(byCar < 0.4 * byClass, $"mean square miss {byCar:F2} against {byClass:F2}");
    }

    [Fact]
    public void The_traits_come_nearer_to_the_truth_and_stay_inside_what_is_claimed()
    {
        double class2 = 0,
            car2 = 0,
            claimed = 0;
        var random = new Random(7);
        for (var i = 0; i < Cars; i++)
        {
            var scores = Scores(random);
            var car = CarCalibration.Of(Class, Points(DesignSpread.Apply(Class, scores), random));
            for (var k = 0; k < scores.Length; k++)
            {
                class2 += scores[k] * scores[k];
                car2 += Math.Pow(scores[k] - car.Scores[k], 2);
                claimed += car.Deviations[k] * car.Deviations[k];
            }
        }

        Assert.True(car2 < 0.85 * class2, $"{car2:F1} against {class2:F1}");
        // What it claims not to know is what it does not know, within what 144 squares scatter.
        Assert.InRange(car2 / claimed, 0.6, 1.5);
    }

    [Fact]
    public void No_trait_ever_gets_wider_than_its_class_whatever_is_read()
    {
        var random = new Random(11);
        for (var i = 0; i < 10; i++)
        {
            var wild = Points(DesignSpread.Apply(Class, Scores(random)), random)
                .Select(point =>
                    point with
                    {
                        Readings =
                        [
                            .. point.Readings.Select(reading =>
                                reading with
                                {
                                    Value = reading.Value * (0.9 + (0.2 * random.NextDouble())),
                                }
                            ),
                        ],
                    }
                )
                .ToList();
            Assert.All(CarCalibration.Of(Class, wild).Deviations, deviation => Assert.InRange(deviation, 0, 1 + 1e-12));
        }
    }

    [Fact]
    public void The_same_readings_give_the_same_car()
    {
        var points = Points(DesignSpread.Apply(Class, Scores(new Random(3))), new Random(4));
        var (first, second) = (CarCalibration.Of(Class, points), CarCalibration.Of(Class, points));
        Assert.Equal(first.Scores, second.Scores);
        Assert.Equal(first.Deviations, second.Deviations);
        Assert.Equal(first.Design, second.Design);
    }

    [Fact]
    public void Without_readings_it_is_the_class()
    {
        var car = CarCalibration.Of(Class, []);
        Assert.Equal(Class, car.Design);
        Assert.Equal(0, car.Readings);
        Assert.Null(car.Refusal);
    }

    [Fact]
    public void Readings_no_sound_car_gives_are_left_out_and_the_reason_is_said()
    {
        var sick = new HealthyPoint(
            Days[0],
            null,
            [
                new(HealthyChannel.LowSide, 0.7e5, 3e3),
                new(HealthyChannel.HighSide, 8e5, 1e4),
                new(HealthyChannel.Vent, 303, 1),
            ]
        );
        var car = CarCalibration.Of(Class, [sick]);
        Assert.Equal(Class, car.Design);
        Assert.NotNull(car.Refusal);
        Assert.Equal(0, car.Readings);
    }

    private static IEnumerable<(LoopDesign Truth, CalibratedCar Car)> Calibrated()
    {
        var random = new Random(5);
        for (var i = 0; i < Cars; i++)
        {
            var truth = DesignSpread.Apply(Class, Scores(random));
            yield return (truth, CarCalibration.Of(Class, Points(truth, random)));
        }
    }

    private static List<HealthyPoint> Points(LoopDesign truth, Random random) =>
        [
            .. Days.Select(day =>
            {
                var r = Read(truth, day);
                HealthyReading Noisy(HealthyChannel channel, double value, double sigma) =>
                    new(channel, value + (sigma * Normal(random)), sigma);
                return new HealthyPoint(
                    day,
                    null,
                    [
                        Noisy(HealthyChannel.LowSide, r.LowSidePa, 8e3),
                        Noisy(HealthyChannel.HighSide, r.HighSidePa, 3e4),
                        Noisy(HealthyChannel.Vent, r.VentK, 1),
                        Noisy(HealthyChannel.SuctionLine, r.SuctionLineK, 2),
                        Noisy(HealthyChannel.LiquidLine, r.LiquidLineK, 2),
                        Noisy(HealthyChannel.DischargeLine, r.DischargeLineK, 3),
                    ]
                );
            }),
        ];

    private static LoopReadings Read(LoopDesign design, LoopConditions day) =>
        new LoopModel(design).Solve(day, Class.LabelChargeKg, Loop.Faults.LoopFaults.None).Readings!.Value;

    private static double Miss(in LoopReadings model, in LoopReadings truth) =>
        Math.Pow((model.LowSidePa - truth.LowSidePa) / 1e4, 2)
        + Math.Pow((model.HighSidePa - truth.HighSidePa) / 5e4, 2)
        + Math.Pow(model.VentK - truth.VentK, 2);

    private static double[] Scores(Random random) =>
        [.. DesignSpread.All.Select(_ => Math.Clamp(Normal(random), -2, 2))];

    private static double Normal(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
