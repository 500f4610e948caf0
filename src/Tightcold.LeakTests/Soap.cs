namespace Tightcold.LeakTests;

public sealed partial class LeakTestKind
{
    public static LeakTestKind Soap { get; } =
        new(2, "soap bubbles")
        {
            Minutes = 3,
            Needs = "soap",
            RoundTheCircuit = true,
            By = Feels.Pressure | Feels.Coarse,
            HalfSeen = (45, 2),
            FalseAlarm = 0.03,
            Reach = (0.02, null),
            SettleSeconds = 30,
        };
}
