using Tightcold.Diagnosis.Measurement;

namespace Tightcold.Diagnosis.NextTest.Tests;

public sealed partial class TestKind
{
    /// <summary>Whether one is fitted is not known; it is looked at while the liquid line is clamped.</summary>
    public static TestKind LookAtGlass { get; } =
        new(4, "look-at-glass", "Look into the sight glass, if there is one", 2)
        {
            Begins = "sight-glass",
            InTheRunOf = "clamp-liquid-line",
            Plans = (test, now) =>
                now.Evidence.Points is [.., { Glass: GlassSeen.NotLooked }]
                    ?
                    [
                        test.At(now.Same) with
                        {
                            Seen = row =>
                                [
                                    SeenLikelihood.Glass(GlassSeen.Clear, row),
                                    SeenLikelihood.Glass(GlassSeen.Bubbles, row),
                                ],
                        },
                    ]
                    : [],
        };
}
