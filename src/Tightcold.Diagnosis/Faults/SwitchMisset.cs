using Tightcold.Loop.Designs;
using Tightcold.Quantities;
using static Tightcold.Diagnosis.Priors.ReadingReason;

namespace Tightcold.Diagnosis.Faults;

public sealed partial class Fault
{
    /// <summary>Cycling switch or fin thermostat opens at the wrong point.</summary>
    public static Fault SwitchMisset { get; } =
        new(17, "switch-misset", "cycling switch or fin thermostat off its point")
        {
            Weight = 0.02,
            Because = [(WarmAfterTenMinutes, 4)],
            Fits = car =>
                car.Compressor is null or CompressorKind.FixedCycling or CompressorKind.FixedWithFinThermostat,
            Severities = MostlySmall(0.4e5, 1.4e5),
            Apply = (loop, severity, form) => loop with { SwitchOffsetPa = form < 0 ? severity : -severity },
            HowBad = (low, high) => Phrase.Of($"off by {Pressures(low, high)}"),
            Signs = IcesUp,
            Mend = new(
                "Compare the pressures at which it cuts out and in with the maker's figures",
                "whether the switch is off",
                10,
                "running-reading"
            ),
            Asked =
            [
                new("switch-high", "cycling switch set too high (1 is 1.5 bar)", 0.4, Worst: 1.5e5, Form: -1),
                new("switch-low", "cycling switch set too low (1 is 1.5 bar)", 0.5, Worst: 1.5e5, Form: 1),
            ],
        };
}
