using Tightcold.Diagnosis.Measurement;
using Tightcold.Procedures.Substances;
using Tightcold.Quantities;
using static Tightcold.Diagnosis.Priors.ReadingReason;

namespace Tightcold.Diagnosis.Faults;

public sealed partial class Fault
{
    /// <summary>Fan, shroud or face of the condenser: too little air, or fins that no longer pass heat.</summary>
    public static Fault CondenserAir { get; } =
        new(3, "condenser-air", "condenser short of air or dirty")
        {
            Weight = 0.09,
            Because = [(WarmAtIdle, 5), (WarmAfterTenMinutes, 1.5)],
            // A weak fan hides behind air.
            With = [new(8, "air-inside"), new(10, "overcharge")],
            Severities = Even(0.40, 0.98),
            // One in two is the fan, one in four a face blocked outside, one in four fins or tubes that no longer pass
            // heat.
            Apply = (loop, severity, form) =>
                form < 0 ? loop with { CondenserFanLoss = severity }
                : form < 0.67 ? loop with { CondenserAirLoss = severity }
                : loop with { CondenserFouling = severity },
            HowBad = (low, high) => Phrase.Of($"{Shares(low, high)} of its air or fins lost"),
            Signs = (look, at, odds) =>
                look switch
                {
                    Sign.FanRuns when at.Car.CondenserFanLoss > 0.75 => Set(odds, 0.06, 0.14, 0.80),
                    Sign.FanRuns when at.Car.CondenserFanLoss > 0 => Set(odds, 0.22, 0.66, 0.12),
                    Sign.CoolsSteadily when at.Car.CondenserFanLoss > 0 => Set(odds, 0.31, 0.06, 0.10, 0.53),
                    Sign.CoolsSteadily => Set(odds, 0.60, 0.05, 0.09, 0.26),
                    Sign.EngineTemperatureRight when at.Car.CondenserFanLoss + at.Car.CondenserAirLoss > 0.5 => Set(
                        odds,
                        0.72
                    ),
                    Sign.CondenserClean when at.Car.CondenserAirLoss + at.Car.CondenserFouling > 0 => Set(odds, 0.22),
                    _ => false,
                },
            Mend = new(
                "Check that the fan runs, clear and wash the condenser's face, then read again",
                "whether the high side falls",
                20,
                "running-reading"
            ),
            Caution =
                "The fan may start by itself; the high side climbs fast without air: stop the engine above about 28 bar (400 psi).",
            Danger = Danger.Life,
            Asked =
            [
                new("condenser-fan", "condenser air lacking", 0.7),
                new("dirty-condenser", "condenser fouled", 0.5, Form: 1),
            ],
        };
}
