namespace Tightcold.LeakTests;

public sealed partial class LeakTestKind
{
    /// <summary>The evaporator's dye runs out at the condensate drain.</summary>
    public static LeakTestKind DrainDye { get; } =
        new(7, "dye at the drain")
        {
            Minutes = 3,
            Needs = "UV",
            By = Feels.Dye,
            HalfSeen = (25, 1.5),
            FalseAlarm = 0.05,
            Reach = (0.6, 0),
            SettleSeconds = 20,
        };
}
