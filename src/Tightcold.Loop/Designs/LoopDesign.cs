namespace Tightcold.Loop.Designs;

/// <summary>
/// One car's circuit as numbers: SI, absolute pressures. The defaults are an ordinary car with a fixed compressor,
/// expansion valve and receiver; they are engineering assumptions (docs/physics/loop.md lists every one) and carry the
/// spreads of DesignSpread. Use LoopDesigns to get one that fits a car's label.
/// </summary>
public sealed record LoopDesign
{
    public CompressorKind Compressor { get; init; } = CompressorKind.FixedWithFinThermostat;

    public ExpansionKind Expansion { get; init; } = ExpansionKind.ExpansionValve;

    /// <summary>Refrigerant of the label, a name of <see cref="Refrigerant.RefrigerantTables.Names"/>.</summary>
    public string Refrigerant { get; init; } = "R134a";

    /// <summary>Label charge, kg.</summary>
    public double LabelChargeKg { get; init; } = 0.60;

    /// <summary>Swept volume of a turn at full stroke, m3.</summary>
    public double DisplacementM3 { get; init; } = 135e-6;

    /// <summary>Compressor turns for one of the engine; not used by an electric one.</summary>
    public double PulleyRatio { get; init; } = 1.3;

    /// <summary>Scale of the volumetric efficiency: ev = scale (a0 - c (PR^(1/n) - 1) - k u/(1 + 0.4 u)).</summary>
    public double VolumetricScale { get; init; } = 1;

    public double VolumetricBase { get; init; } = 1.10;

    /// <summary>Loss of volumetric efficiency with speed, as reed valves and ports throttle: k u/(1 + 0.4 u), u the
    /// speed over that of best work (2000 turns a minute; electric 4000).</summary>
    public double VolumetricSpeedLoss { get; init; } = 0.51;

    public double ClearanceShare { get; init; } = 0.045;

    public double ClearanceExponent { get; init; } = 1.10;

    /// <summary>Best isentropic efficiency, at pressure ratio 4 and 2000 turns a minute.</summary>
    public double IsentropicBest { get; init; } = 0.68;

    /// <summary>Share of the shaft's work into the gas that the shell gives to the air.</summary>
    public double ShellLossShare { get; init; } = 0.08;

    /// <summary>Smallest stroke of a variable compressor, share of the full one.</summary>
    public double MinStroke { get; init; } = 0.04;

    /// <summary>Suction pressure a variable compressor holds, Pa absolute.</summary>
    public double SuctionSetPa { get; init; } = 3.0e5;

    /// <summary>Fall of that set point for each pascal of discharge pressure above 15 bar.</summary>
    public double SuctionSetDroop { get; init; } = 0.012;

    /// <summary>Proportional band of a variable compressor's control valve, Pa of suction pressure from least to full
    /// stroke.</summary>
    public double ControlBandPa { get; init; } = 0.30e5;

    /// <summary>Evaporating temperature an electric compressor holds, K.</summary>
    public double ElectricTargetK { get; init; } = 275.5;

    /// <summary>Proportional band of that control, K from least to full speed.</summary>
    public double ElectricBandK { get; init; } = 3;

    public double ElectricMinRpm { get; init; } = 900;

    public double ElectricMaxRpm { get; init; } = 7500;

    public double ElectricEfficiency { get; init; } = 0.88;

    /// <summary>Face area of the condenser, m2.</summary>
    public double CondenserFaceM2 { get; init; } = 0.22;

    /// <summary>Air-side conductance of the condenser at 2 m/s, W/K; grows with the root of face speed.</summary>
    public double CondenserAirUa { get; init; } = 1150;

    /// <summary>Refrigerant-side conductance of the condenser with condensation everywhere, W/K.</summary>
    public double CondenserRefrigerantUa { get; init; } = 4500;

    /// <summary>Share of the condenser's face behind the receiver (a subcooling pass); 0 for a receiver after the
    /// condenser.</summary>
    public double SubcoolFaceShare { get; init; }

    /// <summary>Evaporator blower at full, m3/s of cabin air.</summary>
    public double BlowerM3PerS { get; init; } = 500.0 / 3600;

    /// <summary>Number of transfer units of the dry coil's air side at full blower.</summary>
    public double EvaporatorAirNtu { get; init; } = 2.7;

    /// <summary>Refrigerant-side conductance of the evaporator, W/K.</summary>
    public double EvaporatorRefrigerantUa { get; init; } = 2000;

    /// <summary>Warming of the air by the blower motor, K.</summary>
    public double BlowerHeatK { get; init; } = 1.5;

    /// <summary>Share of the way from coil outlet to bay air that the ducts add.</summary>
    public double DuctGainShare { get; init; } = 0.04;

    /// <summary>Flow area of the fully rated valve, m2, with its discharge coefficient in it.</summary>
    public double ValveAreaM2 { get; init; } = 1.15e-6;

    /// <summary>Superheat at which the valve begins to open with the evaporator at 0 °C, K.</summary>
    public double StaticSuperheatK { get; init; } = 4;

    /// <summary>Superheat from closed to rated opening, K.</summary>
    public double OpeningSuperheatK { get; init; } = 6;

    public double ValveBleed { get; init; } = 0.04;

    public double ValveMaxOpening { get; init; } = 1.4;

    public double TubeDiameterM { get; init; } = 1.78e-3;

    public double TubeLengthM { get; init; } = 38.3e-3;

    public double CondenserVolumeM3 { get; init; } = 0.75e-3;

    public double EvaporatorVolumeM3 { get; init; } = 0.65e-3;

    /// <summary>Receiver (valve) or accumulator (tube), net of what is built in, m3.</summary>
    public double StoreVolumeM3 { get; init; } = 0.30e-3;

    public double SuctionVolumeM3 { get; init; } = 0.40e-3;

    public double DischargeVolumeM3 { get; init; } = 0.15e-3;

    public double LiquidLineVolumeM3 { get; init; } = 0.08e-3;

    public double CompressorVolumeM3 { get; init; } = 0.30e-3;

    public double OilKg { get; init; } = 0.14;

    /// <summary>Pressure drop coefficients, Pa kg/m3 per (kg/s)2: dp = K m2 / rho.</summary>
    public double SuctionDrop { get; init; } = 2.5e8;

    public double DischargeDrop { get; init; } = 1.6e9;

    public double LiquidDrop { get; init; } = 6e9;

    /// <summary>Warming of the suction line, W/K to the air of the engine bay.</summary>
    public double SuctionLineUa { get; init; } = 3;

    /// <summary>Cooling of the liquid line, W/K to the air of the engine bay.</summary>
    public double LiquidLineUa { get; init; } = 1.5;

    /// <summary>The bay's air above the ambient, K.</summary>
    public double BayRiseK { get; init; } = 20;

    /// <summary>Low-side cycling switch: opens and closes at, Pa absolute.</summary>
    public double LowSwitchOffPa { get; init; } = 2.74e5;

    public double LowSwitchOnPa { get; init; } = 4.10e5;

    /// <summary>Loss-of-charge switch on the high side: no clutch below, Pa absolute.</summary>
    public double ChargeSwitchPa { get; init; } = 2.9e5;

    /// <summary>High-pressure switch: opens and closes at, Pa absolute.</summary>
    public double HighSwitchOffPa { get; init; } = 29e5;

    public double HighSwitchOnPa { get; init; } = 21e5;

    /// <summary>Fin thermostat: off and on, K at the fins of the boiling part of the core.</summary>
    public double FinOffK { get; init; } = 277.15;

    public double FinOnK { get; init; } = 279.65;

    /// <summary>Heat capacity of the evaporator core, J/K.</summary>
    public double CoreHeatCapacity { get; init; } = 4000;

    /// <summary>Heat capacity of the condenser, J/K.</summary>
    public double CondenserHeatCapacity { get; init; } = 3500;

    /// <summary>Mean error of the void-fraction law on liquid held in the exchangers, a factor on that mass.</summary>
    public double HoldupFactor { get; init; } = 1;

    /// <summary>Everything inside, m3.</summary>
    public double InternalVolumeM3 =>
        CondenserVolumeM3
        + EvaporatorVolumeM3
        + StoreVolumeM3
        + SuctionVolumeM3
        + DischargeVolumeM3
        + LiquidLineVolumeM3
        + CompressorVolumeM3;
}
