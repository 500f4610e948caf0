using Tightcold.Loop.Compressor;
using Tightcold.Loop.Designs;
using Tightcold.Loop.Evaporator;
using Tightcold.Loop.Refrigerant;

namespace Tightcold.Loop.Solving;

/// <summary>One question to the loop, made ready: all that stays the same while pressures are sought.</summary>
internal struct LoopCase
{
    public RefrigerantTable Table;
    public LoopDesign Design;
    public ExpansionKind Expansion;
    public CompressorKind Kind;
    public double ChargeKg;

    public CompressorLaw Compressor;
    public double DisplacementM3;
    public double Rpm;
    public double ControlLow;
    public double ControlHigh;
    public double ShellLossShare;

    public double AirPa;
    public double CondenserAirK;
    public double AirSaturationPa;
    public double VapourG,
        CondensingG,
        LiquidG;
    public double SubcoolShare;

    public WetCoil Coil;
    public double BayK;
    public double SuctionUa;
    public double LiquidUa;

    public double SuctionDrop,
        DischargeDrop,
        LiquidDrop;

    public double ValveAreaM2;
    public double ValveFixedOpening;
    public double ValveFixedShare;
    public double TubeDiameterM;

    public double OilKg;
    public double StaticPa;
}
