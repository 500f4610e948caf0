using Tightcold.Diagnosis.Measurement;

namespace Tightcold.Diagnosis.NextTest.Tests;

public sealed partial class TestKind
{
    public static TestKind WatchClutch { get; } =
        new(6, "watch-clutch", "Watch the clutch for three minutes", 3)
        {
            Begins = "clutch",
            Plans = (test, now) =>
                now.Last.Clutch != ClutchSeen.NotLooked || now.Last.CyclesPerMinute is not null
                    ? []
                    :
                    [
                        test.At(now.Same) with
                        {
                            Seen = row =>
                                [
                                    SeenLikelihood.Clutch(ClutchSeen.On, row),
                                    SeenLikelihood.Clutch(ClutchSeen.Off, row),
                                    SeenLikelihood.Clutch(ClutchSeen.Cycling, row),
                                ],
                        },
                    ],
        };
}
