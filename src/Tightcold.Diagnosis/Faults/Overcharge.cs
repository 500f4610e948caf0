using Tightcold.Diagnosis.Measurement;
using Tightcold.Procedures.Substances;
using static Tightcold.Diagnosis.Priors.ReadingReason;

namespace Tightcold.Diagnosis.Faults;

public sealed partial class Fault
{
    /// <summary>More than about an eighth above the label's charge.</summary>
    public static Fault Overcharge { get; } =
        new(1, "overcharge", "too much refrigerant")
        {
            Weight = 0.07,
            Because = [(WarmAtIdle, 1.5), (JustMendedAndWeighed, 1.5), (CameBackAfterAWeek, 1.5)],
            With = [new(9, "air-inside")],
            Charge = (u, _) => 1.12 + (0.68 * u),
            HowBad = Nothing,
            Signs = (look, _, odds) =>
                look switch
                {
                    Sign.CoolsSteadily => Set(odds, 0.65, 0.06, 0.08, 0.21),
                    Sign.FoamAtLowerRevs => Set(odds, 0.15),
                    _ => false,
                },
            Mend = new(
                "Have it recovered and weighed, then filled to the label",
                "how much was too much",
                40,
                "recovery"
            ),
            Caution = NearItsRelief,
            Danger = Danger.Life,
            Asked = [new("overcharge", "refrigerant over by that share", 0.3, ChargeShare: share => 1 + share)],
        };

    private const string NearItsRelief =
        "High side may near its relief: stop the engine above about 28 bar (400 psi); never vent it, recover it.";
}
