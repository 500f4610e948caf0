using Tightcold.Diagnosis.Measurement;
using Tightcold.Diagnosis.Priors;
using Tightcold.Loop.Designs;
using static Tightcold.Diagnosis.Priors.ReadingReason;

namespace Tightcold.Diagnosis.Faults;

public sealed partial class Fault
{
    /// <summary>Stroke or speed held small.</summary>
    public static Fault ControlStuckLow { get; } =
        new(13, "control-stuck-low", "compressor control stuck at small stroke")
        {
            Weight = 0.03,
            Because = [(WarmAtIdle, 1.5)],
            Fits = Varies,
            Severities = Even(0.50, 1),
            Apply = (loop, severity, _) => loop with { ControlStuckLow = severity },
            Signs = (look, _, odds) => look == Sign.ValveAskedFor && Set(odds, 0.93),
            Mend = ReadTheDuty,
            Asked = [new("control-low", "stroke or speed stuck low", 1)],
        };

    private static Mending ReadTheDuty =>
        new(
            "Read the control valve's duty with a scan tool before changing it",
            "wiring, valve or compressor",
            15,
            Sign.ValveAskedFor,
            "Measure the control valve's coil and plug; change the valve, the compressor only if that does nothing"
        );

    private static bool Varies(CarKnowledge car) =>
        car.Compressor is null or CompressorKind.Variable or CompressorKind.Electric;
}
