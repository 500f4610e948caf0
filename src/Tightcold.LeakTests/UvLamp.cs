namespace Tightcold.LeakTests;

public sealed partial class LeakTestKind
{
    /// <summary>After days of running; the evaporator cannot be seen with a lamp.</summary>
    public static LeakTestKind UvLamp { get; } =
        new(0, "UV lamp")
        {
            Minutes = 2,
            Needs = "UV",
            RoundTheCircuit = true,
            By = Feels.Dye | Feels.Residue,
            HalfSeen = (12, 1.5),
            FalseAlarm = 0.05,
            Reach = (0.10, null),
            SettleSeconds = 40,
        };
}
