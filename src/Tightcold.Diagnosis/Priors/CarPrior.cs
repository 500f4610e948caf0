using System.Collections.Immutable;
using Tightcold.Loop.Designs;
using Tightcold.Procedures;

namespace Tightcold.Diagnosis.Priors;

/// <summary>
/// The roughly known car: from standard normal coordinates to one design. Spreads are one standard deviation,
/// lognormal unless said; engineering assumptions, listed in docs/physics/diagnosis.md.
/// </summary>
internal sealed class CarPrior
{
    private const double OrdinaryLabelKg = 0.60;
    private const double CondenserUaSpread = 0.24;
    private const double DisplacementSpread = 0.16;
    private const double VolumetricSpread = 0.08;
    private const double CoilSpread = 0.19;
    private const double BlowerSpread = 0.19;
    private const double ThrottleSpread = 0.13;
    private const double SuperheatSpread = 0.25;
    private const double SuctionSetSpreadPa = 0.19e5;
    private const double ElectricTargetSpreadK = 1.9;
    private const double SwitchSpreadPa = 0.15e5;
    private const double HighSwitchSpreadPa = 1.4e5;
    private const double FinSpreadK = 1.25;
    private const double IsentropicSpread = 0.09;
    private const double LineHeatSpread = 0.5;
    private const double LineDropSpread = 0.35;
    private const double HoldupSpread = 0.22;
    private const double StoreSpread = 0.22;

    // Some cars with a fixed compressor also carry the receiver before a subcooling pass (assumed).
    private const double SubcoolPass = 0.22;
    private const double OftenWithoutPass = 0.7;

    private static readonly (CompressorKind Compressor, ExpansionKind Expansion, double Weight)[] Kinds =
    [
        (CompressorKind.Variable, ExpansionKind.ExpansionValve, 0.40), (CompressorKind.FixedWithFinThermostat, ExpansionKind.ExpansionValve, 0.25),
        (CompressorKind.FixedCycling, ExpansionKind.OrificeTube, 0.25), (CompressorKind.Electric, ExpansionKind.ExpansionValve, 0.05),
        (CompressorKind.Variable, ExpansionKind.OrificeTube, 0.04), (CompressorKind.FixedCycling, ExpansionKind.ExpansionValve, 0.01),
    ];

    private readonly CarKnowledge car;
    private readonly (CompressorKind Compressor, ExpansionKind Expansion, double Weight, LoopDesign Middle)[] kinds;

    public CarPrior(CarKnowledge car)
    {
        this.car = car;
        LabelKg = LabelOf(car);
        var fitting = Kinds.Where(kind => (car.Compressor is null || car.Compressor == kind.Compressor) && (car.Expansion is null || car.Expansion == kind.Expansion)).ToArray();
        if (fitting.Length == 0) fitting = [(car.Compressor!.Value, car.Expansion!.Value, 1)];
        kinds = [.. fitting.Select(kind => (kind.Compressor, kind.Expansion, kind.Weight, Middle(car, kind.Compressor, kind.Expansion, LabelKg)))];
    }

    /// <summary>The label's charge, or that of an ordinary car, kg.</summary>
    public double LabelKg { get; }

    /// <inheritdoc cref="LabelKg"/>
    public static double LabelOf(CarKnowledge car) => car.LabelChargeKg ?? OrdinaryLabelKg;

    public LoopDesign Design(ReadOnlySpan<double> z, IReadOnlyList<Fault> faults)
    {
        var (middle, share) = Kind(z[Coordinate.Kind], faults);
        var ua = Math.Exp(CondenserUaSpread * z[Coordinate.CondenserUa]);
        var hold = Math.Exp(HoldupSpread * z[Coordinate.Volumes]);
        var store = Math.Exp(StoreSpread * z[Coordinate.Store]);
        var ntu = Math.Exp(CoilSpread * z[Coordinate.CoilNtu]);
        var throttle = Math.Exp(ThrottleSpread * z[Coordinate.ThrottleArea]);
        var drop = Math.Exp(LineDropSpread * z[Coordinate.LineDrop]);
        var pass = middle.Expansion == ExpansionKind.ExpansionValve && middle.SubcoolFaceShare == 0 && share > OftenWithoutPass ? SubcoolPass : middle.SubcoolFaceShare;
        return middle with
        {
            SubcoolFaceShare = pass,
            DisplacementM3 = middle.DisplacementM3 * Math.Exp(DisplacementSpread * z[Coordinate.Displacement]),
            VolumetricScale = Math.Exp(VolumetricSpread * z[Coordinate.Volumetric]),
            IsentropicBest = middle.IsentropicBest * Math.Exp(IsentropicSpread * z[Coordinate.Isentropic]),
            CondenserAirUa = middle.CondenserAirUa * ua,
            CondenserRefrigerantUa = middle.CondenserRefrigerantUa * Math.Sqrt(ua),
            EvaporatorAirNtu = middle.EvaporatorAirNtu * ntu,
            EvaporatorRefrigerantUa = middle.EvaporatorRefrigerantUa * ntu,
            BlowerM3PerS = middle.BlowerM3PerS * Math.Exp(BlowerSpread * z[Coordinate.Blower]),
            ValveAreaM2 = middle.ValveAreaM2 * throttle,
            TubeDiameterM = middle.TubeDiameterM * Math.Sqrt(throttle),
            StaticSuperheatK = middle.StaticSuperheatK * Math.Exp(SuperheatSpread * z[Coordinate.ValveSetting]),
            SuctionSetPa = middle.SuctionSetPa + (SuctionSetSpreadPa * z[Coordinate.Control]),
            ElectricTargetK = middle.ElectricTargetK + (ElectricTargetSpreadK * z[Coordinate.Control]),
            LowSwitchOffPa = middle.LowSwitchOffPa + (SwitchSpreadPa * z[Coordinate.Switches]),
            LowSwitchOnPa = middle.LowSwitchOnPa + (SwitchSpreadPa * z[Coordinate.Switches]),
            HighSwitchOffPa = middle.HighSwitchOffPa + (HighSwitchSpreadPa * z[Coordinate.Switches]),
            HighSwitchOnPa = middle.HighSwitchOnPa + (HighSwitchSpreadPa * z[Coordinate.Switches]),
            FinOffK = middle.FinOffK + (FinSpreadK * z[Coordinate.Switches]),
            FinOnK = middle.FinOnK + (FinSpreadK * z[Coordinate.Switches]),
            HoldupFactor = middle.HoldupFactor * hold,
            StoreVolumeM3 = middle.StoreVolumeM3 * store,
            SuctionLineUa = middle.SuctionLineUa * Math.Exp(LineHeatSpread * z[Coordinate.LineHeat]),
            SuctionDrop = middle.SuctionDrop * drop,
            DischargeDrop = middle.DischargeDrop * drop,
            LiquidDrop = middle.LiquidDrop * drop,
        };
    }

    /// <summary>An unknown circuit is one of the usual ones, but only one that can have the fault.</summary>
    private (LoopDesign Middle, double Share) Kind(double z, IReadOnlyList<Fault> faults)
    {
        var u = Normal.Cumulative(z);
        if (kinds.Length == 1) return (kinds[0].Middle, u);
        var possible = 0.0;
        foreach (var kind in kinds)
            if (Possible(kind.Compressor, kind.Expansion, faults)) possible += kind.Weight;
        var left = u * possible;
        foreach (var kind in kinds)
        {
            if (!Possible(kind.Compressor, kind.Expansion, faults)) continue;
            if (left <= kind.Weight) return (kind.Middle, left / kind.Weight);
            left -= kind.Weight;
        }

        var last = kinds.Last(kind => Possible(kind.Compressor, kind.Expansion, faults));
        return (last.Middle, 1);
    }

    /// <summary>The ranges of the coordinate that stand for one kind of circuit each.</summary>
    public ImmutableArray<KindRange> KindRanges(IReadOnlyList<Fault> faults)
    {
        if (kinds.Length == 1) return [new(0, 1)];
        var possible = kinds.Where(kind => Possible(kind.Compressor, kind.Expansion, faults)).ToArray();
        var all = possible.Sum(kind => kind.Weight);
        var to = 0.0;
        return [.. possible.Select(kind => new KindRange(to, to += kind.Weight / all))];
    }

    private bool Possible(CompressorKind compressor, ExpansionKind expansion, IReadOnlyList<Fault> faults)
    {
        foreach (var fault in faults)
            if (!HypothesisSet.Fits(fault, car with { Compressor = compressor, Expansion = expansion })) return false;
        return true;
    }

    /// <summary>The middle of the cars of a kind with this label; a known internal volume or oil charge rules.</summary>
    private static LoopDesign Middle(CarKnowledge car, CompressorKind compressor, ExpansionKind expansion, double labelKg)
    {
        var design = LoopDesigns.Of(LoopDesigns.SizeOf(labelKg, car.Evaporators), compressor, expansion, car.Refrigerant, labelKg);
        if (car.OilKg is { } oil) design = design with { OilKg = oil };
        if (car.InternalVolumeM3 is not { } known) return design;
        var volume = Math.Clamp(known / design.InternalVolumeM3, 0.6, 1.6);
        return design with
        {
            CondenserVolumeM3 = design.CondenserVolumeM3 * volume,
            EvaporatorVolumeM3 = design.EvaporatorVolumeM3 * volume,
            StoreVolumeM3 = design.StoreVolumeM3 * volume,
            SuctionVolumeM3 = design.SuctionVolumeM3 * volume,
            DischargeVolumeM3 = design.DischargeVolumeM3 * volume,
            LiquidLineVolumeM3 = design.LiquidLineVolumeM3 * volume,
            CompressorVolumeM3 = design.CompressorVolumeM3 * volume,
        };
    }
}
