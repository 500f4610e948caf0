using Tightcold.Procedures.Substances;
using Tightcold.Quantities;

namespace Tightcold.Findings.Steps;

/// <summary>Cautions that a step brings itself, whatever is in the circuit; common practice of the trade unless
/// said otherwise.</summary>
internal static class StepCautions
{
    private const string Practice = "common practice";

    public static readonly Caution Freezes = new(
        "freeze",
        Danger.Hurts,
        Phrase.Words(
            "Goggles and gloves on before a hose or valve is touched: liquid refrigerant freezes skin and eyes."
        ),
        Practice
    );

    public static readonly Caution MovingParts = new(
        "moving-parts",
        Danger.Hurts,
        Phrase.Words("Hands, hoses and sleeves clear of fan, belt and hot parts; parking brake on; exhaust outside."),
        Practice
    );

    /// <summary>What the journal shows at this moment: before anything else.</summary>
    public static Caution Now(Phrase says) => new("now: " + says.ToString(), Danger.Now, says, "");

    /// <summary>What this car's readings ask to mind, beside the step's own.</summary>
    public static Caution Mind(Phrase says) => new("mind: " + says.ToString(), Danger.Spoils, says, "");
}
