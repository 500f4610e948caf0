using Tightcold.Loop.Air;
using Tightcold.Loop.Solving;

namespace Tightcold.Loop.Results;

/// <summary>Sums the circuit from outside.</summary>
internal static class Balance
{
    public static LoopBalance Of(in LoopCase c, in LoopPoint p, double unplacedKg = 0)
    {
        if (p.H1 == 0)
            return default;
        c.Coil.AirOut(p.EvaporatingK, p.Flow * (p.H1Next - p.H4), out var outK, out var ratio, out var condensate);
        // Air in, air out, and the water that runs off at evaporating temperature.
        var air =
            c.Coil.AirFlow
            * (MoistAirLaw.Enthalpy(c.Coil.AirInK, c.Coil.AirInRatio) - MoistAirLaw.Enthalpy(outK, ratio));
        var cooling = air - (condensate * MoistAirLaw.WaterCp * (p.EvaporatingK - MoistAirLaw.Zero));
        var work = p.Flow * p.HSuctionGasWork;
        var shell = work * c.ShellLossShare;
        var suctionGain = p.Flow * (p.HSuction - p.H1);
        var liquidLoss = p.Flow * (p.H3 - p.H4);
        var rejected = p.Flow * (p.HDischarge - p.H3);
        var left = rejected + shell + liquidLoss;
        var energy = (cooling + suctionGain + work - left) / Math.Max(Math.Abs(left), 1);
        return new LoopBalance(p.FlowResidual, energy, (p.ChargeKg + unplacedKg - c.ChargeKg) / c.ChargeKg, unplacedKg);
    }
}
