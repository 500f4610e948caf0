namespace Tightcold.SecondWorld.Cars;

/// <summary>How the refrigerant is throttled.</summary>
public enum Device
{
    /// <summary>Thermostatic valve, a receiver-drier on the liquid side.</summary>
    ExpansionValve,

    /// <summary>Fixed orifice tube, an accumulator on the suction side.</summary>
    OrificeTube,
}

/// <summary>What keeps the evaporator from freezing.</summary>
public enum Control
{
    /// <summary>Fixed stroke, clutch switched by the suction pressure.</summary>
    PressureSwitch,

    /// <summary>Fixed stroke, clutch switched by the air behind the evaporator.</summary>
    Thermostat,

    /// <summary>Variable stroke that holds the suction pressure.</summary>
    VariableStroke,
}

/// <summary>
/// One car of the second world: what its parts are like. SI units; conductances at the named flow. Which faults it has
/// stands in <see cref="Condition"/>.
/// </summary>
public sealed record CarBuild
{
    public required string Refrigerant { get; init; }
    public required Device Device { get; init; }
    public required Control Control { get; init; }

    // Compressor: a piston machine with clearance.
    public required double DisplacementM3 { get; init; }
    public required double ClearanceRatio { get; init; }
    public required double BlowByAreaM2 { get; init; }
    public required double IsentropicShare { get; init; }
    public required double PulleyRatio { get; init; }

    /// <summary>Suction pressure that a variable compressor holds at a discharge of 10 bar, Pa absolute.</summary>
    public required double SetPressurePa { get; init; }
    public required double StrokeBandPa { get; init; }

    // Switches, Pa absolute or °C.
    public required double CutOutPa { get; init; }
    public required double CutInPa { get; init; }
    public required double ThermostatOffC { get; init; }
    public required double ThermostatOnC { get; init; }
    public required double HighCutOutPa { get; init; }
    public required double HighCutInPa { get; init; }

    // Condenser and its fan.
    public required double CondenserAirWPerK { get; init; }
    public required double CondenserRefrigerantWPerK { get; init; }
    public required double CondenserVolumeM3 { get; init; }
    public required double SubcoolShare { get; init; }
    public required double CondenserDropAtNominalPa { get; init; }
    public required double FanPressurePa { get; init; }
    public required double FanFreeM3PerS { get; init; }
    public required double CorePaPerM6S2 { get; init; }
    public required bool EngineDrivenFan { get; init; }
    public required double SecondFanOnPa { get; init; }
    public required double FirstFanShare { get; init; }
    public required double HotReturnIdle { get; init; }

    // Evaporator and its air.
    public required double EvaporatorAirWPerK { get; init; }
    public required double EvaporatorRefrigerantWPerK { get; init; }
    public required double EvaporatorVolumeM3 { get; init; }
    public required double SuctionDropAtNominalPa { get; init; }
    public required double BlowerKgPerS { get; init; }
    public required double DuctGainK { get; init; }
    public required double CabinLoadW { get; init; }

    // Throttle.
    public required double ValveAreaM2 { get; init; }
    public required double ValveStaticPa { get; init; }
    public required double ValveBandPa { get; init; }
    public required double ValveMaxPa { get; init; }
    public required double OrificeAreaM2 { get; init; }
    public required double InnerExchangerShare { get; init; }

    // Inventory.
    public required double StoreVolumeM3 { get; init; }
    public required double LiquidLineM3 { get; init; }
    public required double SuctionLineM3 { get; init; }
    public required double DischargeLineM3 { get; init; }
    public required double CrankcaseM3 { get; init; }
    public required double OilKg { get; init; }

    public required bool SightGlass { get; init; }
    public required bool HighPortOnLiquidLine { get; init; }

    /// <summary>Charge on the label, kg: what fills the store as its maker wanted it.</summary>
    public double LabelKg { get; init; }

    /// <summary>All the volume that refrigerant can fill, m³.</summary>
    public double VolumeM3 =>
        CondenserVolumeM3
        + EvaporatorVolumeM3
        + StoreVolumeM3
        + LiquidLineM3
        + SuctionLineM3
        + DischargeLineM3
        + CrankcaseM3;
}
