namespace Tightcold.LeakTests;

public sealed partial class LeakTestKind
{
    public static LeakTestKind CoverAndWait { get; } =
        new(3, "cover and wait", "cover and wait, then detector")
        {
            Button = "cover, wait, detector",
            Minutes = 14,
            UsualSeconds = 600,
            Needs = "detector",
            By = Feels.Pressure,
            HalfSeen = (2, 2),
            FalseAlarm = 0.04,
            Reach = (0.3, null),
            SettleSeconds = 300,
            GathersSeconds = 600,
        };
}
