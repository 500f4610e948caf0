using Tightcold.Procedures.Substances;

namespace Tightcold.Diagnosis.Faults;

public sealed partial class Fault
{
    /// <summary>Filled with another refrigerant than the label's, or a mixture.</summary>
    public static Fault WrongRefrigerant { get; } =
        new(21, "wrong-refrigerant", "another refrigerant than the label's")
        {
            Weight = 0.01,
            Fits = car => car.Refrigerant is "R134a" or "R1234yf",
            HowBad = Nothing,
            Mend = new(
                "Have it identified before anything is connected to a recovery machine",
                "what is in it",
                15,
                "standing-reading"
            ),
            Caution = "It may burn: no flame, no spark, and never into your own cylinder.",
            Danger = Danger.Life,
        };
}
