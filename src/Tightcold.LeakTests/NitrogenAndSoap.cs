namespace Tightcold.LeakTests;

public sealed partial class LeakTestKind
{
    public static LeakTestKind NitrogenAndSoap { get; } =
        new(4, "nitrogen and soap")
        {
            Minutes = 4,
            Needs = "nitrogen",
            RoundTheCircuit = true,
            By = Feels.Pressure | Feels.Nitrogen | Feels.Coarse,
            HalfSeen = (45, 2),
            FalseAlarm = 0.03,
            Reach = (0.02, null),
            SettleSeconds = 30,
        };
}
