using Tightcold.Diagnosis.Measurement;
using Tightcold.Quantities;
using static Tightcold.Diagnosis.Priors.ReadingReason;

namespace Tightcold.Diagnosis.Faults;

public sealed partial class Fault
{
    /// <summary>Too little air over the evaporator: cabin filter, blower, leaves, ice.</summary>
    public static Fault EvaporatorAir { get; } =
        new(4, "evaporator-air", "too little air over the evaporator")
        {
            Weight = 0.04,
            Because = [(WarmAfterTenMinutes, 5)],
            Severities = MostlySmall(0.35, 0.92),
            Apply = (loop, severity, _) => loop with { EvaporatorAirLoss = severity },
            HowBad = (low, high) => Phrase.Of($"{Shares(low, high)} of its air lost"),
            Signs = (look, _, odds) =>
                look switch
                {
                    Sign.CoolsSteadily => Set(odds, 0.62, 0.08, 0.25, 0.05),
                    Sign.ColdAgainAfterRest => Set(odds, 0.50),
                    Sign.AirStrong => Set(odds, 0.15),
                    _ => false,
                },
            Mend = new(
                "Look at cabin filter, blower and the core for ice, then read again",
                "whether air and low side come up",
                15,
                "running-reading"
            ),
            Asked = [new("weak-blower", "evaporator air lacking", 0.6)],
        };
}
