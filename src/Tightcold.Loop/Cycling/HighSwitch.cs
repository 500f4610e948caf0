using Tightcold.Loop.Evaporator;
using Tightcold.Loop.Faults;
using Tightcold.Loop.Results;
using Tightcold.Loop.Solving;
using Tightcold.Numerics.Smoothing;

namespace Tightcold.Loop.Cycling;

/// <summary>The high-pressure switch: cuts out at one pressure, lets in again at a lower one.</summary>
internal static class HighSwitch
{
    // Over this much above the cut-out, steady running goes over into cycling: switches differ by that.
    private const double FadePa = 1e5;

    public static double Weight(in LoopCase c, double steadyPa) =>
        double.IsPositiveInfinity(steadyPa) ? 1 : Smooth.Step((steadyPa - c.Design.HighSwitchOffPa) / FadePa);

    /// <summary>Refrigerant's own pressure at the compressor's outlet when the switch opens.</summary>
    public static double LogDischarge(in LoopCase c) =>
        Math.Clamp(
            Math.Log(Math.Max(c.Design.HighSwitchOffPa - c.AirPa, 1e5)),
            c.Table.MinLogPressure + 0.5,
            c.Table.MaxLogPressure
        );

    /// <param name="running">Readings while it runs at the cut-out pressure.</param>
    /// <param name="held">The point they come from.</param>
    /// <param name="endK">Condensing temperature at which running would end without a switch.</param>
    public static LoopReadings Readings(
        in LoopCase c,
        LoopConditions conditions,
        LoopFaults faults,
        in LoopReadings running,
        in LoopPoint held,
        double endK
    )
    {
        var offK = c.Table.SaturationTemperatureK(Math.Max(c.Design.HighSwitchOffPa - c.AirPa, c.Table.MinPressurePa));
        var onK = c.Table.SaturationTemperatureK(Math.Max(c.Design.HighSwitchOnPa - c.AirPa, c.Table.MinPressurePa));
        var cycle = SwitchCycle.Of(
            offK,
            onK,
            endK,
            c.CondenserAirK,
            c.Design.CondenserHeatCapacity,
            c.CondensingG,
            c.CondensingG
        );
        var duty = cycle.Duty;
        var mean = Math.Clamp(
            c.Table.SaturationPressurePa(cycle.MeanK) + c.AirPa,
            c.Design.HighSwitchOnPa,
            c.Design.HighSwitchOffPa
        );
        // At rest the low side rises; half way to the parked pressure on average.
        var resting = 0.5 * (running.LowSidePa + c.StaticPa);
        var cooling = duty * running.CoolingW;
        c.Coil.AirOut(held.EvaporatingK, cooling, out var outK, out _, out var condensate);
        return running with
        {
            HighSidePa = mean,
            HighSideMinPa = c.Design.HighSwitchOnPa,
            HighSideMaxPa = c.Design.HighSwitchOffPa,
            HighSideRunningPa = mean,
            LowSidePa = (duty * running.LowSidePa) + ((1 - duty) * resting),
            LowSideMaxPa = Math.Max(resting, running.LowSidePa),
            // Charge that finds no place at the cut-out pressure stands as liquid before the glass.
            SightGlassQuality = c.ChargeKg > held.ChargeKg ? 0 : running.SightGlassQuality,
            VentK = VentAir.AtK(c, conditions, faults, outK),
            FinK = ReadingMaker.FinK(c, held, outK),
            CoolingW = cooling,
            HeatRejectedW = duty * running.HeatRejectedW,
            PowerW = duty * running.PowerW,
            FlowKgPerS = duty * running.FlowKgPerS,
            CondensateKgPerS = condensate,
            Duty = duty,
            CyclesPerMinute = 60 / cycle.PeriodS,
        };
    }
}
