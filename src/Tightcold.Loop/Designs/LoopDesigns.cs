using Tightcold.Loop.Faults;
using Tightcold.Loop.Refrigerant;
using Tightcold.Loop.Solving;
using Tightcold.Numerics.Roots;

namespace Tightcold.Loop.Designs;

/// <summary>Designs for cars known by their label and size only.</summary>
public static class LoopDesigns
{
    // A label fills the store to about this level on a warm day (practice: half full, for winter and for leaks).
    private const double LabelLevel = 0.55;

    // A tube system's label leaves about this much liquid in its accumulator.
    private const double LabelAccumulatorLevel = 0.35;

    /// <summary>A sound car of a class; its label charge is what fills its store to the usual level.</summary>
    /// <param name="size">How large the car is.</param>
    /// <param name="compressor">How its compressor is governed.</param>
    /// <param name="expansion">Valve or tube.</param>
    /// <param name="refrigerant">Refrigerant of the label.</param>
    /// <param name="labelChargeKg">Label charge, kg; null if not known. It scales the inner volumes.</param>
    /// <param name="displacementM3">Displacement, m3 a turn; null if not known.</param>
    /// <param name="population">What sound cars are like; null for the shipped one.</param>
    public static LoopDesign Of(
        SizeClass size,
        CompressorKind compressor,
        ExpansionKind expansion,
        string refrigerant,
        double? labelChargeKg = null,
        double? displacementM3 = null,
        Population? population = null
    )
    {
        var table = RefrigerantTables.For(refrigerant);
        var scale = size switch
        {
            SizeClass.Small => 0.75,
            SizeClass.Medium => 1.0,
            SizeClass.Large => 1.3,
            _ => 1.7,
        };
        var d = Scaled(
            new LoopDesign
            {
                Refrigerant = table.Name,
                Compressor = compressor,
                Expansion = expansion,
            },
            scale
        );
        d = WithKind(d, scale);
        d = WithPopulation(d, population ?? Population.Shipped);
        d = WithRefrigerant(d);
        if (displacementM3 is { } known)
            d = d with { DisplacementM3 = known };
        return FitToLabel(d, table, labelChargeKg);
    }

    /// <summary>The class a label charge speaks for, R-134a with one evaporator (practice).</summary>
    public static SizeClass SizeOf(double labelChargeKg, int evaporators) =>
        evaporators > 1 ? SizeClass.Dual
        : labelChargeKg < 0.48 ? SizeClass.Small
        : labelChargeKg < 0.72 ? SizeClass.Medium
        : SizeClass.Large;

    private static LoopDesign Scaled(LoopDesign d, double scale) =>
        d with
        {
            DisplacementM3 = d.DisplacementM3 * (0.4 + (0.6 * scale)),
            CondenserFaceM2 = d.CondenserFaceM2 * scale,
            CondenserAirUa = d.CondenserAirUa * scale,
            CondenserRefrigerantUa = d.CondenserRefrigerantUa * scale,
            BlowerM3PerS = d.BlowerM3PerS * scale,
            EvaporatorRefrigerantUa = d.EvaporatorRefrigerantUa * scale,
            ValveAreaM2 = d.ValveAreaM2 * scale,
            TubeDiameterM = d.TubeDiameterM * Math.Sqrt(scale),
            CondenserVolumeM3 = d.CondenserVolumeM3 * scale,
            EvaporatorVolumeM3 = d.EvaporatorVolumeM3 * scale,
            StoreVolumeM3 = d.StoreVolumeM3 * scale,
            SuctionVolumeM3 = d.SuctionVolumeM3 * scale,
            DischargeVolumeM3 = d.DischargeVolumeM3 * scale,
            LiquidLineVolumeM3 = d.LiquidLineVolumeM3 * scale,
            SuctionDrop = d.SuctionDrop / (scale * scale),
            DischargeDrop = d.DischargeDrop / (scale * scale),
            LiquidDrop = d.LiquidDrop / (scale * scale),
            CoreHeatCapacity = d.CoreHeatCapacity * scale,
            CondenserHeatCapacity = d.CondenserHeatCapacity * scale,
            OilKg = d.OilKg * scale,
        };

    private static LoopDesign WithKind(LoopDesign d, double scale)
    {
        if (d.Compressor == CompressorKind.Electric)
            d = d with
            {
                DisplacementM3 = 34e-6 * scale,
                BayRiseK = 10,
                ShellLossShare = 0.04,
                VolumetricBase = 0.95,
                VolumetricSpeedLoss = 0.01,
                ClearanceShare = 0.02,
            };
        // Modern condensers carry the receiver at their side and a subcooling pass behind it.
        if (
            d.Compressor is CompressorKind.Variable or CompressorKind.Electric
            && d.Expansion == ExpansionKind.ExpansionValve
        )
            d = d with { SubcoolFaceShare = 0.22 };
        // A compressor that can shorten its stroke is chosen larger than one that can only be switched (common sizes
        // 160 to 180 and 120 to 155 cm3).
        if (d.Compressor == CompressorKind.Variable)
            d = d with { DisplacementM3 = d.DisplacementM3 * (160.0 / 135) };
        else if (d.Compressor == CompressorKind.FixedCycling)
            d = d with { DisplacementM3 = d.DisplacementM3 * (143.0 / 135) };
        if (d.Expansion == ExpansionKind.OrificeTube)
            d = d with { StoreVolumeM3 = 0.70e-3 * scale };
        return d;
    }

    /// <summary>The middle of the population: its levels on the ordinary car.</summary>
    private static LoopDesign WithPopulation(LoopDesign d, Population p)
    {
        var ua = p["condenser"].Level;
        var drop = p["line-drop"].Level;
        var throttle = p["throttle"].Level;
        return d with
        {
            DisplacementM3 = d.DisplacementM3 * p["displacement"].Level,
            VolumetricScale = d.VolumetricScale * p["volumetric"].Level,
            IsentropicBest = d.IsentropicBest * p["isentropic"].Level,
            CondenserAirUa = d.CondenserAirUa * ua,
            CondenserRefrigerantUa = d.CondenserRefrigerantUa * Math.Sqrt(ua),
            EvaporatorAirNtu = d.EvaporatorAirNtu * p["coil"].Level,
            EvaporatorRefrigerantUa = d.EvaporatorRefrigerantUa * p["coil"].Level,
            BlowerM3PerS = d.BlowerM3PerS * p["blower"].Level,
            ValveAreaM2 = d.ValveAreaM2 * throttle,
            TubeDiameterM = d.TubeDiameterM * Math.Sqrt(throttle),
            StaticSuperheatK = d.StaticSuperheatK * p["superheat"].Level,
            SuctionDrop = d.SuctionDrop * drop,
            DischargeDrop = d.DischargeDrop * drop,
            LiquidDrop = d.LiquidDrop * drop,
            SuctionLineUa = d.SuctionLineUa * p["line-heat"].Level,
            DuctGainShare = d.DuctGainShare * p["duct"].Level,
            SuctionSetPa = p["suction-set"].Level,
            ElectricTargetK = p["electric-target"].Level,
            LowSwitchOnPa = d.LowSwitchOnPa + p["low-switch"].Level - d.LowSwitchOffPa,
            LowSwitchOffPa = p["low-switch"].Level,
            FinOnK = d.FinOnK + p["fin-off"].Level - d.FinOffK,
            FinOffK = p["fin-off"].Level,
        };
    }

    // Set points of R-1234yf and R-152a hold the same temperatures as R-134a's: bar absolute a bar of R-134a at about 0
    // °C.
    private const double YfAsR134a = 1.067,
        R152aAsR134a = 0.915;

    private static LoopDesign WithRefrigerant(LoopDesign d) =>
        d.Refrigerant switch
        {
            // Same saturation line within 5 % but lighter latent heat: more area; switches follow the critical
            // pressure.
            "R1234yf" => d with
            {
                ValveAreaM2 = d.ValveAreaM2 * 1.2,
                TubeDiameterM = d.TubeDiameterM * 1.06,
                HighSwitchOffPa = 27.5e5,
                HighSwitchOnPa = 20.5e5,
                SuctionSetPa = d.SuctionSetPa * YfAsR134a,
                LowSwitchOffPa = d.LowSwitchOffPa + 0.06e5,
                LowSwitchOnPa = d.LowSwitchOnPa + 0.2e5,
            },
            "R152a" => d with
            {
                ValveAreaM2 = d.ValveAreaM2 * 0.75,
                TubeDiameterM = d.TubeDiameterM * 0.87,
                HighSwitchOffPa = 27e5,
                HighSwitchOnPa = 19.5e5,
                SuctionSetPa = d.SuctionSetPa * R152aAsR134a,
                LowSwitchOffPa = d.LowSwitchOffPa - 0.34e5,
                LowSwitchOnPa = d.LowSwitchOnPa - 0.3e5,
                ChargeSwitchPa = 2.6e5,
            },
            _ => d,
        };

    /// <summary>Scales the inner volumes so that the label charge fills the store to its usual level at 30 °C and 1500
    /// rpm.</summary>
    private static LoopDesign FitToLabel(LoopDesign d, RefrigerantTable table, double? labelChargeKg)
    {
        if (labelChargeKg is not { } label)
            return d with { LabelChargeKg = ChargeAtLevel(d, table) };
        // All but what the oil holds grows with the volumes; twice is enough, the second time for the oil's share.
        for (var i = 0; i < 3; i++)
        {
            var factor = Math.Clamp(label / ChargeAtLevel(d, table), 0.3, 3);
            d = d with
            {
                CondenserVolumeM3 = d.CondenserVolumeM3 * factor,
                EvaporatorVolumeM3 = d.EvaporatorVolumeM3 * factor,
                StoreVolumeM3 = d.StoreVolumeM3 * factor,
                SuctionVolumeM3 = d.SuctionVolumeM3 * factor,
                DischargeVolumeM3 = d.DischargeVolumeM3 * factor,
                LiquidLineVolumeM3 = d.LiquidLineVolumeM3 * factor,
                CompressorVolumeM3 = d.CompressorVolumeM3 * factor,
            };
        }

        return d with
        {
            LabelChargeKg = label,
        };
    }

    // Of 4 kg so many leave a hundredth of a milligram.
    private const int Halvings = 28;

    private static double ChargeAtLevel(LoopDesign d, RefrigerantTable table)
    {
        var wanted = d.Expansion == ExpansionKind.ExpansionValve ? LabelLevel : LabelAccumulatorLevel;
        var conditions = LoopConditions.DoorsOpen(303.15, 0.5);
        bool IsTooFull(double chargeKg)
        {
            var c = LoopCaseBuilder.Build(table, d, conditions, chargeKg, LoopFaults.None);
            var trace = default(SolveTrace);
            var point = LoopSolver.Solve(c, null, ref trace);
            return trace.End == SolveEnd.NoRoomForCharge || point.StoreLevel > wanted;
        }

        var (low, high) = Halving.Narrow(IsTooFull, 0.05, 4, Halvings);
        return 0.5 * (low + high);
    }
}
