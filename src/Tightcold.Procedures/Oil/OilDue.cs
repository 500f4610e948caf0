using System.Collections.Immutable;

namespace Tightcold.Procedures.Oil;

/// <summary>Oil that goes with a part: published additions of several makers, low to high.</summary>
/// <param name="LowM3">The least that a maker publishes.</param>
/// <param name="HighM3">The most.</param>
/// <param name="Says">What the figures are, for a person.</param>
public readonly record struct OilDue(double LowM3, double HighM3, string Says)
{
    public static readonly OilDue None = new(0, 0, "no oil goes with it");

    /// <summary>Loss with a burst: two to three fluid ounces by the same pages.</summary>
    public static readonly OilDue Burst = new(60e-6, 90e-6, "sudden loss by a burst hose: published 60 to 90 mL");

    // Five makers' service pages for R-134a systems: evaporator 90 mL by three and 35 mL by one; condenser 30 mL by three and 20 mL by one;
    // accumulator what was drained and 30 to 60 mL, or 105 mL; hose or line 0 to 15 mL. Receiver-drier: common practice 10 to 30 mL.
    private static readonly ImmutableArray<(string Part, OilDue Due)> Parts =
    [
        ("evaporator", new(35e-6, 90e-6, "published: 90 mL by three makers, 35 mL by another")),
        ("condenser", new(20e-6, 30e-6, "published: 30 mL by three makers, 20 mL by another")),
        ("accumulator", new(30e-6, 105e-6, "published: what was drained and 30 to 60 mL, or 105 mL")),
        ("receiver-drier", new(10e-6, 30e-6, "common practice, no source")),
    ];

    /// <param name="spot">A spot of the circuit map.</param>
    public static OilDue With(string spot) =>
        Parts.FirstOrDefault(known => known.Part == spot) is { Part: not null } found ? found.Due
        : spot.Contains("hose", StringComparison.Ordinal) || spot.EndsWith("line", StringComparison.Ordinal) ? new(0, 15e-6, "published: 0 to 15 mL by line or hose")
        : None;
}
