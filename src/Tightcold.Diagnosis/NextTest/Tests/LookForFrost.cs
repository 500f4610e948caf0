using Tightcold.Diagnosis.Measurement;

namespace Tightcold.Diagnosis.NextTest.Tests;

public sealed partial class TestKind
{
    public static TestKind LookForFrost { get; } =
        new(5, "look-for-frost", "Look for frost at the expansion device, suction line and drier", 2)
        {
            Begins = "frost",
            Plans = (test, now) =>
                now.Last.Frost != FrostSeen.NotLooked
                    ? []
                    :
                    [
                        test.At(now.Same) with
                        {
                            Seen = row =>
                                [
                                    SeenLikelihood.Frost(FrostSeen.Nowhere, row),
                                    SeenLikelihood.Frost(FrostSeen.AtThrottle, row),
                                    SeenLikelihood.Frost(FrostSeen.OnSuctionLine, row),
                                    SeenLikelihood.Frost(FrostSeen.OnDrier, row),
                                ],
                        },
                    ],
        };
}
