namespace Tightcold.LeakTests;

public sealed partial class LeakTestKind
{
    /// <summary>The evaporator's gas gathers at the condensate drain.</summary>
    public static LeakTestKind DrainSniff { get; } =
        new(6, "drain sniff", "detector at the drain")
        {
            Minutes = 8,
            UsualSeconds = 480,
            Needs = "detector",
            By = Feels.Pressure | Feels.Wind,
            HalfSeen = (10, 2),
            FalseAlarm = 0.08,
            Reach = (0.75, 0),
            SettleSeconds = 120,
        };
}
