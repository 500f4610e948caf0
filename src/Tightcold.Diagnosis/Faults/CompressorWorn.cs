using Tightcold.Diagnosis.Measurement;
using static Tightcold.Diagnosis.Priors.ReadingReason;

namespace Tightcold.Diagnosis.Faults;

public sealed partial class Fault
{
    public static Fault CompressorWorn { get; } =
        new(10, "compressor-worn", "worn compressor")
        {
            Weight = 0.05,
            Because = [(WarmAtIdle, 3)],
            // A compressor that dies plugs what comes after it.
            With = [new(11, "tube-plugged", 2)],
            Severities = Even(0.30, 1),
            Apply = (loop, severity, _) => loop with { CompressorWear = severity },
            Signs = (look, at, odds) =>
                look switch
                {
                    Sign.CoolsSteadily => Set(odds, 0.60, 0.02, 0.04, 0.34),
                    Sign.SidesEqualAtOnce => First(
                        odds,
                        0.10 + (0.75 * at.Car.CompressorWear),
                        0.10 - (0.05 * at.Car.CompressorWear)
                    ),
                    Sign.NeedlesSteady when !at.Cycles => Set(odds, 0.45, 0.20, 0.35),
                    Sign.OilClean => Set(odds, 0.45, 0.30, 0.25),
                    _ => false,
                },
            Mend = new(
                "Read at idle and raised speed once more before spending on a compressor",
                "a worn one barely moves the gauges apart at idle",
                10,
                "running-reading"
            ),
            Caution = "A compressor that sheds metal ruins its successor: look for grit before fitting a new one.",
            Asked = [new("worn-compressor", "compressor worn", 0.6)],
        };
}
