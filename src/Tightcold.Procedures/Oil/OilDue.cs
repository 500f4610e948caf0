using System.Collections.Immutable;
using Tightcold.Quantities;

namespace Tightcold.Procedures.Oil;

/// <summary>Oil that goes with a part: published additions of several makers, low to high.</summary>
/// <param name="LowM3">The least that a maker publishes.</param>
/// <param name="HighM3">The most.</param>
/// <param name="Says">What the figures are, for a person.</param>
public readonly record struct OilDue(double LowM3, double HighM3, [Said] string Says)
{
    public static readonly OilDue None = new(0, 0, "no oil goes with it");

    /// <summary>Loss with a burst: 30 mL for a large leak by one maker, two to three fluid ounces by others.</summary>
    public static readonly OilDue Burst = new(30e-6, 90e-6, "sudden loss by a burst hose: published 30 to 90 mL");

    // Makers' service texts for R-134a systems, read as stored pages. Five of one region: evaporator 90 mL by three and
    // 35 mL by one, condenser 30 mL by three and 20 mL by one, accumulator what was drained and 30 to 60 mL, or 105 mL,
    // hose or line 0 to 15 mL. Five others: condenser 15, 15, 15, 35 and 40, evaporator 35, 60, 60, 75 (rear 40) and
    // 80, suction hose 10, pipe or hose 20, receiver 10, liquid tank 10, receiver-drier 20; two more print 30 and 105
    // for the receiver-drier.
    private static readonly ImmutableArray<(string Part, OilDue Due)> Parts =
    [
        (
            "evaporator",
            new(35e-6, 90e-6, "published by nine makers' texts: 35 to 90 mL, most often 60 to 90; a rear one 40")
        ),
        ("condenser", new(15e-6, 40e-6, "published by nine makers' texts: 15 to 40 mL")),
        ("accumulator", new(30e-6, 105e-6, "published: what was drained and 30 to 60 mL, or 105 mL")),
        ("receiver-drier", new(10e-6, 105e-6, "published: 10 to 30 mL by four makers' texts, 105 mL by one")),
    ];

    /// <param name="spot">A spot of the circuit map.</param>
    public static OilDue With(string spot) =>
        Parts.FirstOrDefault(known => known.Part == spot) is { Part: not null } found ? found.Due
        : spot.Contains("hose", StringComparison.Ordinal) || spot.EndsWith("line", StringComparison.Ordinal)
            ? new(0, 20e-6, "published: 0 to 20 mL by line or hose")
        : None;
}
