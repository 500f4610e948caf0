using Tightcold.Loop.Faults;
using Tightcold.Loop.Solving;

namespace Tightcold.Loop.Evaporator;

/// <summary>From the coil to the vent: warm ducts, and air that strays through the heater core.</summary>
internal static class VentAir
{
    public static double AtK(in LoopCase c, LoopConditions conditions, LoopFaults faults, double coilOutK)
    {
        var duct = coilOutK + (c.Design.DuctGainShare * (c.BayK - coilOutK));
        return duct + (faults.BlendDoorLeak * Math.Max(0, conditions.HeaterK - duct));
    }
}
