namespace Tightcold.LeakTests;

public sealed partial class LeakTestKind
{
    public static LeakTestKind Detector { get; } =
        new(1, "electronic detector")
        {
            Minutes = 3,
            Needs = "detector",
            RoundTheCircuit = true,
            By = Feels.Pressure | Feels.Wind,
            HalfSeen = (6, 2),
            FalseAlarm = 0.08,
            SettleSeconds = 20,
        };
}
