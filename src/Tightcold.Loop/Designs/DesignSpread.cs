using System.Collections.Immutable;

namespace Tightcold.Loop.Designs;

/// <summary>
/// What of a car is known only roughly, as factors on its design (or kelvins added) with normal spreads of their
/// logarithms. All assumed; the inference samples and calibration narrows them. Order is fixed: it is the order of the
/// vectors that <see cref="Apply"/> takes.
/// </summary>
public sealed record DesignSpread(
    string Key,
    string Name,
    double StandardDeviation,
    Func<LoopDesign, double, LoopDesign> Change
)
{
    /// <summary>Every roughly known trait.</summary>
    public static ImmutableArray<DesignSpread> All { get; } =
    [
        new("displacement", "compressor displacement", 0.10, (d, f) =>
            d with
            {
                DisplacementM3 = d.DisplacementM3 * f,
            }
        ),
        new("volumetric", "compressor delivery", 0.06, (d, f) => d with { VolumetricScale = d.VolumetricScale * f }),
        new("isentropic", "compressor efficiency", 0.08, (d, f) =>
            d with
            {
                IsentropicBest = Math.Clamp(d.IsentropicBest * f, 0.4, 0.85),
            }
        ),
        new("condenser", "condenser conductance", 0.20, (d, f) =>
            d with
            {
                CondenserAirUa = d.CondenserAirUa * f,
                CondenserRefrigerantUa = d.CondenserRefrigerantUa * f,
            }
        ),
        new("evaporator-ntu", "evaporator conductance", 0.15, (d, f) =>
            d with
            {
                EvaporatorAirNtu = d.EvaporatorAirNtu * f,
                EvaporatorRefrigerantUa = d.EvaporatorRefrigerantUa * f,
            }
        ),
        new("blower", "blower flow", 0.15, (d, f) => d with { BlowerM3PerS = d.BlowerM3PerS * f }),
        new("throttle", "throttle area", 0.10, (d, f) =>
            d with
            {
                ValveAreaM2 = d.ValveAreaM2 * f,
                TubeDiameterM = d.TubeDiameterM * Math.Sqrt(f),
            }
        ),
        new("superheat-set", "valve setting", 0.20, (d, f) => d with { StaticSuperheatK = d.StaticSuperheatK * f }),
        new("holdup", "liquid held in the exchangers", 0.12, (d, f) => d with { HoldupFactor = d.HoldupFactor * f }),
        new("store", "receiver or accumulator volume", 0.15, (d, f) => d with { StoreVolumeM3 = d.StoreVolumeM3 * f }),
        new("line-drop", "pressure drop of the lines", 0.25, (d, f) =>
            d with
            {
                SuctionDrop = d.SuctionDrop * f,
                DischargeDrop = d.DischargeDrop * f,
                LiquidDrop = d.LiquidDrop * f,
            }
        ),
        new("suction-set", "suction set point or switch", 0.05, (d, f) =>
            d with
            {
                SuctionSetPa = d.SuctionSetPa * f,
                LowSwitchOffPa = d.LowSwitchOffPa * f,
                LowSwitchOnPa = d.LowSwitchOnPa * f,
            }
        ),
    ];

    /// <summary>The design with every trait moved by so many standard deviations, in the order of <see
    /// cref="All"/>.</summary>
    public static LoopDesign Apply(LoopDesign design, ReadOnlySpan<double> standardScores)
    {
        ArgumentNullException.ThrowIfNull(design);
        if (standardScores.Length != All.Length)
            throw new ArgumentException(
                $"One score for each of {All.Length} traits is wanted.",
                nameof(standardScores)
            );
        for (var i = 0; i < standardScores.Length; i++)
        {
            if (standardScores[i] != 0)
                design = All[i].Change(design, Math.Exp(All[i].StandardDeviation * standardScores[i]));
        }

        return design;
    }
}
