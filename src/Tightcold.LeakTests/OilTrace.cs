namespace Tightcold.LeakTests;

public sealed partial class LeakTestKind
{
    public static LeakTestKind OilTrace { get; } =
        new(5, "oil trace", "look for oil")
        {
            Minutes = 1,
            UsualSeconds = 60,
            RoundTheCircuit = true,
            By = Feels.Residue | Feels.Coarse,
            HalfSeen = (40, 1.2),
            FalseAlarm = 0.12,
            Reach = (0.02, null),
            SettleSeconds = 10,
        };
}
