using Tightcold.Loop.Solving;
using Tightcold.Numerics.Smoothing;

namespace Tightcold.Loop.Compressor;

/// <summary>
/// Stroke of a variable compressor and speed of an electric one as proportional bands on the suction side. Real control
/// valves have a band, and it keeps the circuit one smooth set of equations instead of three regimes.
/// </summary>
internal static class CapacityControl
{
    private const double DroopReferencePa = 15e5;

    public static double Stroke(in LoopCase c, double suctionPa, double dischargePa)
    {
        var set = c.Design.SuctionSetPa - (c.Design.SuctionSetDroop * (dischargePa - DroopReferencePa));
        return Between(c, c.Design.MinStroke, 1, (suctionPa - set) / c.Design.ControlBandPa);
    }

    public static double ElectricRpm(in LoopCase c, double suctionSaturationK) =>
        Between(
            c,
            c.Design.ElectricMinRpm,
            c.Design.ElectricMaxRpm,
            (suctionSaturationK - c.Design.ElectricTargetK) / c.Design.ElectricBandK
        )
        * c.Rpm
        / c.Design.ElectricMaxRpm;

    private static double Between(in LoopCase c, double least, double most, double place)
    {
        var free = least + ((most - least) * Smooth.Step(0.5 + place));
        free += c.ControlLow * (least - free);
        return free + (c.ControlHigh * (most - free));
    }
}
