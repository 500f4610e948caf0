using Tightcold.Diagnosis.Measurement;
using Tightcold.Quantities;

namespace Tightcold.Diagnosis.Faults;

public sealed partial class Fault
{
    /// <summary>Drier, kinked liquid line or screen.</summary>
    public static Fault LineRestricted { get; } =
        new(8, "line-restricted", "restriction in liquid line or drier")
        {
            Weight = 0.03,
            Severities = AreaLeft(0.75, 0.99),
            Apply = (loop, severity, _) => loop with { LiquidLineRestriction = severity },
            HowBad = (low, high) => Phrase.Of($"{Shares(low, high)} of the opening closed"),
            Signs = (look, at, odds) =>
                look == Sign.NoStepAlongLiquidLine && Last(odds, 0.05 + (0.55 * at.Step), 0.06 + (0.25 * at.Step)),
            Mend = new(
                "Feel along the liquid line and drier for a step in temperature",
                "where the restriction sits",
                10,
                Sign.NoStepAlongLiquidLine,
                "Recover, change the drier and what is kinked or blocked, evacuate, fill by weight",
                opens: true
            ),
            Caution = HeldDown,
            Asked = [new("blocked-drier", "liquid line or drier restricted", 0.95)],
        };
}
