using Tightcold.Quantities;
using static Tightcold.Diagnosis.Priors.ReadingReason;

namespace Tightcold.Diagnosis.Faults;

public sealed partial class Fault
{
    public static Fault OilExcess { get; } =
        new(16, "oil-excess", "too much oil")
        {
            Weight = 0.02,
            Because = [(JustMendedAndWeighed, 1.5)],
            Severities = MostlySmall(0.06, 0.25),
            Apply = (loop, severity, _) => loop with { ExcessOilKg = severity },
            HowBad = (low, high) => Phrase.Of($"{(Measure.Kilograms(low), Measure.Kilograms(high))} of oil too much"),
            Mend = new(
                "Think over the oil put in at earlier repairs; only draining and measuring tells",
                "how much is in",
                60,
                "oil-moved"
            ),
            Asked = [new("too-much-oil", "oil over (1 is 300 g)", 0.5, Worst: 0.3)],
        };
}
