using System.Collections.Immutable;
using Tightcold.Diagnosis.Faults;
using Tightcold.Loop.Designs;
using Tightcold.Numerics.Distributions;

namespace Tightcold.Diagnosis.Priors;

/// <summary>
/// The roughly known car: from standard normal coordinates to one design. Levels and spreads are those of the
/// population (<see cref="Population"/>), learnt from makers' charts.
/// </summary>
internal sealed class CarPrior
{
    private const double OrdinaryLabelKg = 0.60;

    // Some cars with a fixed compressor also carry the receiver before a subcooling pass (assumed).
    private const double SubcoolPass = 0.22;
    private const double OftenWithoutPass = 0.7;

    private static readonly (CompressorKind Compressor, ExpansionKind Expansion, double Weight)[] Kinds =
    [
        (CompressorKind.Variable, ExpansionKind.ExpansionValve, 0.40),
        (CompressorKind.FixedWithFinThermostat, ExpansionKind.ExpansionValve, 0.25),
        (CompressorKind.FixedCycling, ExpansionKind.OrificeTube, 0.25),
        (CompressorKind.Electric, ExpansionKind.ExpansionValve, 0.05),
        (CompressorKind.Variable, ExpansionKind.OrificeTube, 0.04),
        (CompressorKind.FixedCycling, ExpansionKind.ExpansionValve, 0.01),
    ];

    private readonly CarKnowledge car;
    private readonly Population population;
    private readonly (CompressorKind Compressor, ExpansionKind Expansion, double Weight, LoopDesign Middle)[] kinds;

    public CarPrior(CarKnowledge car)
        : this(car, Population.Shipped) { }

    public CarPrior(CarKnowledge car, Population population)
    {
        this.car = car;
        this.population = population;
        LabelKg = LabelOf(car);
        var fitting = Kinds
            .Where(kind =>
                (car.Compressor is null || car.Compressor == kind.Compressor)
                && (car.Expansion is null || car.Expansion == kind.Expansion)
            )
            .ToArray();
        if (fitting.Length == 0)
            fitting = [(car.Compressor!.Value, car.Expansion!.Value, 1)];
        kinds =
        [
            .. fitting.Select(kind =>
                (
                    kind.Compressor,
                    kind.Expansion,
                    kind.Weight,
                    Middle(car, kind.Compressor, kind.Expansion, LabelKg, population)
                )
            ),
        ];
    }

    /// <summary>The label's charge, or that of an ordinary car, kg.</summary>
    public double LabelKg { get; }

    /// <inheritdoc cref="LabelKg"/>
    public static double LabelOf(CarKnowledge car) => car.LabelChargeKg ?? OrdinaryLabelKg;

    public LoopDesign Design(ReadOnlySpan<double> z, IReadOnlyList<Fault> faults)
    {
        var (middle, share) = Kind(z[Coordinate.Kind], faults);
        // Levels are in the middle already: here only how far this car lies from it.
        var ua = Off("condenser", z[Coordinate.CondenserUa]);
        var ntu = Off("coil", z[Coordinate.CoilNtu]);
        var throttle = Off("throttle", z[Coordinate.ThrottleArea]);
        var drop = Off("line-drop", z[Coordinate.LineDrop]);
        var lowSwitch = population["low-switch"].Spread * z[Coordinate.Switches];
        var highSwitch = population["high-switch"].Spread * z[Coordinate.Switches];
        var fin = population["fin-off"].Spread * z[Coordinate.Switches];
        var pass =
            middle.Expansion == ExpansionKind.ExpansionValve && middle.SubcoolFaceShare == 0 && share > OftenWithoutPass
                ? SubcoolPass
                : middle.SubcoolFaceShare;
        return middle with
        {
            SubcoolFaceShare = pass,
            DisplacementM3 = middle.DisplacementM3 * Off("displacement", z[Coordinate.Displacement]),
            VolumetricScale = middle.VolumetricScale * Off("volumetric", z[Coordinate.Volumetric]),
            IsentropicBest = Math.Clamp(
                middle.IsentropicBest * Off("isentropic", z[Coordinate.Isentropic]),
                0.35,
                0.85
            ),
            CondenserAirUa = middle.CondenserAirUa * ua,
            CondenserRefrigerantUa = middle.CondenserRefrigerantUa * Math.Sqrt(ua),
            EvaporatorAirNtu = middle.EvaporatorAirNtu * ntu,
            EvaporatorRefrigerantUa = middle.EvaporatorRefrigerantUa * ntu,
            BlowerM3PerS = middle.BlowerM3PerS * Off("blower", z[Coordinate.Blower]),
            ValveAreaM2 = middle.ValveAreaM2 * throttle,
            TubeDiameterM = middle.TubeDiameterM * Math.Sqrt(throttle),
            StaticSuperheatK = middle.StaticSuperheatK * Off("superheat", z[Coordinate.ValveSetting]),
            SuctionSetPa = middle.SuctionSetPa + (population["suction-set"].Spread * z[Coordinate.Control]),
            ElectricTargetK = middle.ElectricTargetK + (population["electric-target"].Spread * z[Coordinate.Control]),
            LowSwitchOffPa = middle.LowSwitchOffPa + lowSwitch,
            LowSwitchOnPa = middle.LowSwitchOnPa + lowSwitch,
            HighSwitchOffPa = middle.HighSwitchOffPa + highSwitch,
            HighSwitchOnPa = middle.HighSwitchOnPa + highSwitch,
            FinOffK = middle.FinOffK + fin,
            FinOnK = middle.FinOnK + fin,
            HoldupFactor = middle.HoldupFactor * Off("holdup", z[Coordinate.Volumes]),
            StoreVolumeM3 = middle.StoreVolumeM3 * Off("store", z[Coordinate.Store]),
            SuctionLineUa = middle.SuctionLineUa * Off("line-heat", z[Coordinate.LineHeat]),
            DuctGainShare = Math.Min(0.4, middle.DuctGainShare * Off("duct", z[Coordinate.Duct])),
            SuctionDrop = middle.SuctionDrop * drop,
            DischargeDrop = middle.DischargeDrop * drop,
            LiquidDrop = middle.LiquidDrop * drop,
        };
    }

    private double Off(string trait, double score) => Math.Exp(population[trait].Spread * score);

    /// <summary>An unknown circuit is one of the usual ones, but only one that can have the fault.</summary>
    private (LoopDesign Middle, double Share) Kind(double z, IReadOnlyList<Fault> faults)
    {
        var u = Normal.Cumulative(z);
        if (kinds.Length == 1)
            return (kinds[0].Middle, u);
        var possible = 0.0;
        foreach (var kind in kinds)
            if (Possible(kind.Compressor, kind.Expansion, faults))
                possible += kind.Weight;
        var left = u * possible;
        foreach (var kind in kinds)
        {
            if (!Possible(kind.Compressor, kind.Expansion, faults))
                continue;
            if (left <= kind.Weight)
                return (kind.Middle, left / kind.Weight);
            left -= kind.Weight;
        }

        var last = kinds.Last(kind => Possible(kind.Compressor, kind.Expansion, faults));
        return (last.Middle, 1);
    }

    /// <summary>The ranges of the coordinate that stand for one kind of circuit each.</summary>
    public ImmutableArray<KindRange> KindRanges(IReadOnlyList<Fault> faults)
    {
        if (kinds.Length == 1)
            return [new(0, 1)];
        var possible = kinds.Where(kind => Possible(kind.Compressor, kind.Expansion, faults)).ToArray();
        var all = possible.Sum(kind => kind.Weight);
        var to = 0.0;
        return [.. possible.Select(kind => new KindRange(to, to += kind.Weight / all))];
    }

    private bool Possible(CompressorKind compressor, ExpansionKind expansion, IReadOnlyList<Fault> faults)
    {
        foreach (var fault in faults)
            if (!fault.Fits(car with { Compressor = compressor, Expansion = expansion }))
                return false;
        return true;
    }

    /// <summary>The middle of the cars of a kind with this label; a known internal volume or oil charge
    /// rules.</summary>
    private static LoopDesign Middle(
        CarKnowledge car,
        CompressorKind compressor,
        ExpansionKind expansion,
        double labelKg,
        Population population
    )
    {
        var size = LoopDesigns.SizeOf(labelKg, car.Evaporators);
        var design = LoopDesigns.Of(size, compressor, expansion, car.Refrigerant, labelKg, population: population);
        if (car.OilKg is { } oil)
            design = design with { OilKg = oil };
        if (car.InternalVolumeM3 is not { } known)
            return design;
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
