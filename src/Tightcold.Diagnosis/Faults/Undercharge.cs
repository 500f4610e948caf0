using Tightcold.Diagnosis.Measurement;
using static Tightcold.Diagnosis.Priors.ReadingReason;

namespace Tightcold.Diagnosis.Faults;

public sealed partial class Fault
{
    /// <summary>Less than four fifths of the label's charge, and so little that the circuit shows it: liquid runs
    /// short. A shortage that receiver or accumulator still covers is no different from a sound car to any gauge.</summary>
    public static Fault Undercharge { get; } =
        new(0, "undercharge", "too little refrigerant")
        {
            Weight = 0.45,
            Because =
            [
                (WarmAtIdle, 0.5),
                (WarmAfterTenMinutes, 0.4),
                (JustMendedAndWeighed, 0.1),
                (CameBackAfterAWeek, 2.5),
            ],
            // It goes with anything.
            With =
            [
                new(1, "condenser-air"),
                new(2, "compressor-worn"),
                new(3, "blend-door-leaks"),
                new(4, "evaporator-air"),
                new(5, "air-inside"),
                new(6, "valve-stuck-closed"),
                new(7, "tube-plugged"),
            ],
            // A circuit loses its last tenth quickly: few are met just then with the compressor still running. Assumed.
            Charge = (u, alone) => alone ? 0.05 + (0.75 * Math.Pow(u, 0.75)) : 0.20 + (0.60 * u),
            HowBad = Nothing,
            Signs = (look, _, odds) =>
                look switch
                {
                    Sign.VentsAlike => Set(odds, 0.75),
                    Sign.FoamAtLowerRevs => Set(odds, 0.85),
                    _ => false,
                },
            Mend = new(
                "Search the leak, then recover, mend, evacuate and fill by weight",
                "where it went; topping up loses it again",
                30,
                "leak-check"
            ),
            Caution =
                "Do not fill up by the gauges: over a wide range of charge they do not move, and too much is next.",
            Asked = [new("low-charge", "refrigerant short by that share", 0.5, ChargeShare: share => 1 - share)],
        };
}
