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
    private const double CondenserUaSpread = 0.20;
    private const double DisplacementSpread = 0.15;
    private const double VolumetricSpread = 0.06;
    private const double CoilSpread = 0.15;
    private const double BlowerSpread = 0.15;
    private const double ThrottleSpread = 0.12;
    private const double SuperheatSpreadK = 1.5;
    private const double SuctionSetSpreadPa = 0.15e5;
    private const double ElectricTargetSpreadK = 1.5;
    private const double SwitchSpreadPa = 0.12e5;
    private const double FinSpreadK = 1.0;
    private const double IsentropicSpread = 0.07;
    private const double LineHeatSpread = 0.4;

    // Half the cars with a receiver carry it before a subcooling pass (assumed).
    private const double SubcoolPassShare = 0.22;

    private static readonly (CompressorKind Compressor, ExpansionKind Expansion, double Weight)[] Kinds =
    [
        (CompressorKind.Variable, ExpansionKind.ExpansionValve, 0.40), (CompressorKind.FixedWithFinThermostat, ExpansionKind.ExpansionValve, 0.25),
        (CompressorKind.FixedCycling, ExpansionKind.OrificeTube, 0.25), (CompressorKind.Electric, ExpansionKind.ExpansionValve, 0.05),
        (CompressorKind.Variable, ExpansionKind.OrificeTube, 0.04), (CompressorKind.FixedCycling, ExpansionKind.ExpansionValve, 0.01),
    ];

    private readonly CarKnowledge car;
    private readonly (CompressorKind Compressor, ExpansionKind Expansion, double To)[] kinds;
    private readonly LoopDesign middle;
    private readonly double volumeSpread;

    public CarPrior(CarKnowledge car)
    {
        this.car = car;
        LabelKg = car.LabelChargeKg ?? OrdinaryLabelKg;
        middle = Middle(car, LabelKg, out volumeSpread);
        var fitting = Kinds.Where(kind => (car.Compressor is null || car.Compressor == kind.Compressor) && (car.Expansion is null || car.Expansion == kind.Expansion)).ToArray();
        if (fitting.Length == 0) fitting = [(car.Compressor!.Value, car.Expansion!.Value, 1)];
        var sum = fitting.Sum(kind => kind.Weight);
        var to = 0.0;
        kinds = [.. fitting.Select(kind => (kind.Compressor, kind.Expansion, to += kind.Weight / sum))];
    }

    /// <summary>The label's charge, or that of an ordinary car, kg.</summary>
    public double LabelKg { get; }

    public LoopDesign Design(ReadOnlySpan<double> z, IReadOnlyList<Fault> faults)
    {
        var (compressor, expansion, share) = Kind(z[Coordinate.Kind], faults);
        var ua = Math.Exp(CondenserUaSpread * z[Coordinate.CondenserUa]);
        var volume = Math.Exp(volumeSpread * z[Coordinate.Volumes]);
        var ntu = Math.Exp(CoilSpread * z[Coordinate.CoilNtu]);
        var throttle = Math.Exp(ThrottleSpread * z[Coordinate.ThrottleArea]);
        return middle with
        {
            Compressor = compressor,
            Expansion = expansion,
            SubcoolFaceShare = expansion == ExpansionKind.ExpansionValve && share > 0.5 ? SubcoolPassShare : 0,
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
            StaticSuperheatK = Math.Max(1, middle.StaticSuperheatK + (SuperheatSpreadK * z[Coordinate.ValveSetting])),
            SuctionSetPa = middle.SuctionSetPa + (SuctionSetSpreadPa * z[Coordinate.Control]),
            ElectricTargetK = middle.ElectricTargetK + (ElectricTargetSpreadK * z[Coordinate.Control]),
            LowSwitchOffPa = middle.LowSwitchOffPa + (SwitchSpreadPa * z[Coordinate.Switches]),
            LowSwitchOnPa = middle.LowSwitchOnPa + (SwitchSpreadPa * z[Coordinate.Switches]),
            FinOffK = middle.FinOffK + (FinSpreadK * z[Coordinate.Switches]),
            FinOnK = middle.FinOnK + (FinSpreadK * z[Coordinate.Switches]),
            CondenserVolumeM3 = middle.CondenserVolumeM3 * volume,
            EvaporatorVolumeM3 = middle.EvaporatorVolumeM3 * volume,
            StoreVolumeM3 = middle.StoreVolumeM3 * volume,
            SuctionVolumeM3 = middle.SuctionVolumeM3 * volume,
            DischargeVolumeM3 = middle.DischargeVolumeM3 * volume,
            LiquidLineVolumeM3 = middle.LiquidLineVolumeM3 * volume,
            CompressorVolumeM3 = middle.CompressorVolumeM3 * volume,
            SuctionLineUa = middle.SuctionLineUa * Math.Exp(LineHeatSpread * z[Coordinate.LineHeat]),
        };
    }

    /// <summary>An unknown circuit is one of the usual ones, but only one that can have the fault.</summary>
    private (CompressorKind, ExpansionKind, double Share) Kind(double z, IReadOnlyList<Fault> faults)
    {
        var u = Normal.Cumulative(z);
        if (kinds.Length == 1) return (kinds[0].Compressor, kinds[0].Expansion, u);
        double from = 0, possible = 0;
        foreach (var kind in kinds)
        {
            if (Possible(kind.Compressor, kind.Expansion, faults)) possible += kind.To - from;
            from = kind.To;
        }

        var left = u * possible;
        from = 0;
        foreach (var kind in kinds)
        {
            var width = kind.To - from;
            from = kind.To;
            if (!Possible(kind.Compressor, kind.Expansion, faults)) continue;
            if (left <= width) return (kind.Compressor, kind.Expansion, left / width);
            left -= width;
        }

        var last = kinds.Last(kind => Possible(kind.Compressor, kind.Expansion, faults));
        return (last.Compressor, last.Expansion, 1);
    }

    private bool Possible(CompressorKind compressor, ExpansionKind expansion, IReadOnlyList<Fault> faults)
    {
        foreach (var fault in faults)
            if (!HypothesisSet.Fits(fault, car with { Compressor = compressor, Expansion = expansion })) return false;
        return true;
    }

    /// <summary>The middle of the cars with this label: swept volume, exchangers and throttle grow with the root of the
    /// label's charge, volumes with the charge itself (assumed).</summary>
    private static LoopDesign Middle(CarKnowledge car, double labelKg, out double volumeSpread)
    {
        var size = labelKg / OrdinaryLabelKg;
        var root = Math.Sqrt(size);
        var plain = new LoopDesign();
        var volume = car.InternalVolumeM3 is { } known ? known / plain.InternalVolumeM3 : size;
        volumeSpread = car.InternalVolumeM3 is null ? 0.12 : Math.Min(0.12, car.InternalVolumeSpread);
        return plain with
        {
            Refrigerant = car.Refrigerant,
            LabelChargeKg = labelKg,
            DisplacementM3 = plain.DisplacementM3 * root,
            CondenserFaceM2 = plain.CondenserFaceM2 * root,
            CondenserAirUa = plain.CondenserAirUa * root,
            CondenserRefrigerantUa = plain.CondenserRefrigerantUa * root,
            BlowerM3PerS = plain.BlowerM3PerS * root,
            EvaporatorRefrigerantUa = plain.EvaporatorRefrigerantUa * root,
            ValveAreaM2 = plain.ValveAreaM2 * root,
            TubeDiameterM = plain.TubeDiameterM * Math.Sqrt(root),
            CondenserVolumeM3 = plain.CondenserVolumeM3 * volume,
            EvaporatorVolumeM3 = plain.EvaporatorVolumeM3 * volume,
            StoreVolumeM3 = plain.StoreVolumeM3 * volume,
            SuctionVolumeM3 = plain.SuctionVolumeM3 * volume,
            DischargeVolumeM3 = plain.DischargeVolumeM3 * volume,
            LiquidLineVolumeM3 = plain.LiquidLineVolumeM3 * volume,
            CompressorVolumeM3 = plain.CompressorVolumeM3 * volume,
            OilKg = car.OilKg ?? plain.OilKg * root,
            SuctionDrop = plain.SuctionDrop / size,
            DischargeDrop = plain.DischargeDrop / size,
            LiquidDrop = plain.LiquidDrop / size,
        };
    }
}
