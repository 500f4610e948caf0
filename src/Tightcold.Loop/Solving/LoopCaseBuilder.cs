using Tightcold.Loop.Air;
using Tightcold.Loop.Compressor;
using Tightcold.Loop.Designs;
using Tightcold.Loop.Evaporator;
using Tightcold.Loop.Faults;
using Tightcold.Loop.Inventory;
using Tightcold.Loop.Refrigerant;

namespace Tightcold.Loop.Solving;

/// <summary>Turns design, day and faults into what the march needs.</summary>
internal static class LoopCaseBuilder
{
    private const double GasConstantAir = 287.05;

    // Air still moves by heat alone through a core whose fan is dead, m/s and share of the blower.
    private const double LeastFaceMPerS = 0.15;
    private const double LeastBlowerShare = 0.04;

    // A throttle that is shut leaks a little; a line that is closed passes a little.
    private const double LeastArea = 0.01;

    // Below this speed the compressor's leakage rules and the model has no law; see SwitchedOff.
    public const double LeastRpm = 150;

    private const double ElectricBestRpm = 4000;
    private const double MechanicalBestRpm = 2000;
    private const double SingleVapourShare = 0.6;
    private const double SingleLiquidShare = 0.7;

    public static LoopCase Build(
        RefrigerantTable table,
        LoopDesign design,
        LoopConditions conditions,
        double chargeKg,
        LoopFaults faults
    )
    {
        var c = new LoopCase
        {
            Table = table,
            Design = design,
            Expansion = design.Expansion,
            Kind = design.Compressor,
            ChargeKg = chargeKg,
            DisplacementM3 = design.DisplacementM3,
            ControlLow = faults.ControlStuckLow,
            ControlHigh = faults.ControlStuckHigh,
            ShellLossShare = design.ShellLossShare,
            SubcoolShare = design.SubcoolFaceShare,
            BayK = conditions.AmbientK + design.BayRiseK,
            SuctionDrop = design.SuctionDrop,
            DischargeDrop = design.DischargeDrop,
            LiquidDrop = design.LiquidDrop / Square(Math.Max(LeastArea, 1 - faults.LiquidLineRestriction)),
            ValveAreaM2 = design.ValveAreaM2 * Math.Max(LeastArea, 1 - faults.ThrottleIced),
            ValveFixedShare = Math.Max(faults.ValveStuckOpen, faults.ValveStuckClosed),
            OilKg = design.OilKg + faults.ExcessOilKg,
            // The flow that divides it is estimated at 70 % of what the swept volume would hold.
            SuctionUa = design.SuctionLineUa / 0.7,
            LiquidUa = design.LiquidLineUa,
        };
        c.ValveFixedOpening = faults.ValveStuckOpen >= faults.ValveStuckClosed ? design.ValveMaxOpening : LeastArea;
        c.TubeDiameterM =
            design.TubeDiameterM
            * Math.Sqrt(
                Math.Max(LeastArea, 1 - faults.TubePlugged)
                    * Math.Max(LeastArea, 1 - faults.ThrottleIced)
                    * (1 + (MostOversize * faults.TubeOversize))
            );
        Drive(ref c, conditions, faults);
        Condenser(ref c, conditions, faults);
        Evaporator(ref c, conditions, faults);
        c.StaticPa = StaticPressure.Refrigerant(table, design, conditions.AmbientK, chargeKg, c.OilKg);
        c.AirPa = SweptAirPa(c, conditions, faults);
        return c;
    }

    // Without its tube the line itself throttles: some four times the tube's area; assumed.
    private const double MostOversize = 3;

    // A compressor worn out: broken reeds or scored pistons let each stroke back; assumed.
    private const double WornLeak = 0.97,
        WornHeat = 0.5;

    private static void Drive(ref LoopCase c, LoopConditions conditions, LoopFaults faults)
    {
        var electric = c.Kind == CompressorKind.Electric;
        var full = electric ? c.Design.ElectricMaxRpm : conditions.EngineRpm * c.Design.PulleyRatio;
        c.Rpm = Math.Max(full * (1 - faults.ClutchSlip), LeastRpm);
        c.Compressor = new CompressorLaw
        {
            VolumetricScale = c.Design.VolumetricScale * (1 - (WornLeak * faults.CompressorWear)),
            VolumetricBase = c.Design.VolumetricBase,
            VolumetricSpeedLoss = c.Design.VolumetricSpeedLoss,
            ClearanceShare = c.Design.ClearanceShare,
            InverseClearanceExponent = 1 / c.Design.ClearanceExponent,
            IsentropicBest = c.Design.IsentropicBest,
            IsentropicScale = 1 - (WornHeat * faults.CompressorWear),
            BestRpm = electric ? ElectricBestRpm : MechanicalBestRpm,
        };
    }

    private static void Condenser(ref LoopCase c, LoopConditions conditions, LoopFaults faults)
    {
        var d = c.Design;
        c.CondenserAirK = conditions.AmbientK + conditions.ReentryK;
        c.AirSaturationPa = c.Table.SaturationPressurePa(c.CondenserAirK);
        // Two streams side by side or one behind the other: their dynamic pressures add, so their squares do.
        var own = Math.Max(0, conditions.CondenserFaceMPerS - LeastFaceMPerS) * (1 - faults.CondenserFanLoss);
        var aid = conditions.AidFaceMPerS;
        var speed = LeastFaceMPerS + (Math.Sqrt((own * own) + (aid * aid)) * (1 - faults.CondenserAirLoss));
        var density = conditions.BarometricPa / (GasConstantAir * c.CondenserAirK);
        var capacity = density * speed * d.CondenserFaceM2 * MoistAirLaw.AirCp;
        // Conductance grows with the root of mass velocity; the nominal one belongs to 2 m/s of air of 1.13 kg/m3.
        var clean = d.CondenserAirUa * Math.Sqrt(density * speed / (1.13 * 2)) * (1 - (0.9 * faults.CondenserFouling));
        // Air and oil on the condensing side: gas that does not condense gathers at the wall and halves the film at 2.5
        // bar (shape from the textbooks of condensation, size assumed); oil 5 % for each 50 g (assumed).
        var film = 1 / (1 + (0.4e-5 * faults.AirExcessPa) + faults.ExcessOilKg);
        var ua = 1 / ((1 / clean) + (1 / (d.CondenserRefrigerantUa * film)));
        c.CondensingG = capacity * (1 - Math.Exp(-ua / capacity));
        c.VapourG = capacity * (1 - Math.Exp(-SingleVapourShare * ua / capacity));
        c.LiquidG = capacity * (1 - Math.Exp(-SingleLiquidShare * ua / capacity));
    }

    private static void Evaporator(ref LoopCase c, LoopConditions conditions, LoopFaults faults)
    {
        var d = c.Design;
        var p = conditions.BarometricPa;
        var outside = MoistAirLaw.Ratio(conditions.RelativeHumidity, conditions.AmbientK, p);
        var inside = MoistAirLaw.Ratio(conditions.CabinRelativeHumidity, conditions.CabinK, p);
        var ratio = inside + (conditions.FreshShare * (outside - inside));
        var enthalpy = MoistAirLaw.Enthalpy(conditions.CabinK, inside);
        enthalpy += conditions.FreshShare * (MoistAirLaw.Enthalpy(conditions.AmbientK, outside) - enthalpy);
        var inlet = MoistAirLaw.TemperatureK(enthalpy, ratio) + d.BlowerHeatK;
        var share = Math.Max(LeastBlowerShare, conditions.BlowerShare * (1 - faults.EvaporatorAirLoss));
        var flow = d.BlowerM3PerS * share * p / (GasConstantAir * inlet * (1 + (1.608 * ratio)));
        // Conductance of the air side grows with flow to the 0.6, so its NTU falls with flow to the 0.4.
        var ntu = d.EvaporatorAirNtu * Math.Pow(share, -0.4);
        var capacity = flow * (MoistAirLaw.AirCp + (MoistAirLaw.SteamCp * ratio));
        var airUa = ntu * capacity;
        var refrigerantUa = d.EvaporatorRefrigerantUa / (1 + (0.7 * faults.ExcessOilKg));
        c.Coil = new WetCoil
        {
            AirInK = inlet,
            AirInRatio = ratio,
            AirInEnthalpy = MoistAirLaw.Enthalpy(inlet, ratio),
            AirFlow = flow,
            AirCapacity = capacity,
            BarometricPa = p,
            AirResistance = MoistAirLaw.AirCp / airUa,
            RefrigerantResistance = 1 / refrigerantUa,
            DryEffectiveness = 1 - Math.Exp(-1 / (capacity * ((1 / airUa) + (1 / refrigerantUa)))),
        };
    }

    /// <summary>
    /// Air of a soaked system, swept into the high side by the running compressor: the same moles in the gas space of
    /// condenser, receiver and discharge line, at condensing temperature.
    /// </summary>
    private static double SweptAirPa(in LoopCase c, LoopConditions conditions, LoopFaults faults)
    {
        if (faults.AirExcessPa <= 0)
            return 0;
        var d = c.Design;
        var liquid = Math.Min(c.ChargeKg / 1150, 0.7 * d.InternalVolumeM3);
        var everywhere = d.InternalVolumeM3 - liquid;
        var store = d.Expansion == ExpansionKind.ExpansionValve ? 0.5 * d.StoreVolumeM3 : 0;
        var high = (0.8 * d.CondenserVolumeM3) + store + d.DischargeVolumeM3 + (0.5 * d.CompressorVolumeM3);
        return faults.AirExcessPa * Math.Min(4, everywhere / high) * (c.CondenserAirK + 15) / 298.15;
    }

    private static double Square(double x) => x * x;
}
