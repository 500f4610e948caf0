using Tightcold.Loop.Designs;
using Tightcold.Loop.Evaporator;
using Tightcold.Loop.Faults;
using Tightcold.Loop.Results;
using Tightcold.Loop.Solving;
using Tightcold.Numerics.Smoothing;

namespace Tightcold.Loop.Cycling;

/// <summary>The clutch cycled from the cold side: by the pressure switch of a tube system or the fin thermostat of a
/// valve system.</summary>
internal static class LowSwitch
{
    // Over this much about the switch point, steady running goes over into cycling: switches differ by that.
    private const double FadeK = 1.0;

    // About 0 °C, R-134a and its successors: a kelvin of saturation is a tenth of a bar.
    private const double PascalPerKelvin = 1e4;

    // At rest the condenser's pressure falls about half way to saturation at its air's temperature before the clutch
    // pulls again.
    private const double RestingFall = 0.5;

    public static LoopReadings Apply(
        in LoopCase c,
        LoopConditions conditions,
        LoopFaults faults,
        in LoopPoint p,
        in LoopReadings steady,
        ref LoopRegimes regimes
    )
    {
        double offK,
            onK;
        LoopRegimes name;
        if (c.Kind == CompressorKind.FixedCycling && conditions.LowSwitchBridged)
            return steady;
        if (c.Kind == CompressorKind.FixedCycling)
        {
            // The switch feels the suction pressure; the cycle runs in evaporating temperature, so the drop between is
            // added.
            var drop = p.EvaporatingK - c.Table.SaturationTemperatureK(steady.LowSideMinPa);
            offK = c.Table.SaturationTemperatureK(c.Design.LowSwitchOffPa + faults.SwitchOffsetPa) + drop;
            onK = c.Table.SaturationTemperatureK(c.Design.LowSwitchOnPa + faults.SwitchOffsetPa) + drop;
            name = LoopRegimes.LowSwitchCycling;
        }
        else if (c.Kind == CompressorKind.FixedWithFinThermostat)
        {
            var shift =
                (faults.SwitchOffsetPa / PascalPerKelvin) + p.EvaporatingK - ReadingMaker.ProbeK(c, p, CoilOutK(c, p));
            offK = c.Design.FinOffK + shift;
            onK = c.Design.FinOnK + shift;
            name = LoopRegimes.FinCycling;
        }
        else
        {
            return steady;
        }

        var weight = Smooth.Step(0.5 + ((offK - p.EvaporatingK) / FadeK));
        if (weight <= 0)
            return steady;
        regimes |= name;
        return LoopReadings.Mix(steady, Cycle(c, conditions, faults, p, steady, offK, onK), weight);
    }

    private static double CoilOutK(in LoopCase c, in LoopPoint p)
    {
        c.Coil.AirOut(p.EvaporatingK, p.Flow * (p.H1 - p.H4), out var outK, out _, out _);
        return outK;
    }

    private static LoopReadings Cycle(
        in LoopCase c,
        LoopConditions conditions,
        LoopFaults faults,
        in LoopPoint p,
        in LoopReadings steady,
        double offK,
        double onK
    )
    {
        var airK = c.Coil.AirInK;
        var duty = p.Flow * (p.H1 - p.H4);
        // Air gives heat in proportion to its distance; the compressor takes more the denser the suction gas.
        var airWPerK = Math.Max(duty, 1) / Math.Max(airK - p.EvaporatingK, 1);
        c.Table.Row(Math.Log(p.EvaporatorPa), out var row);
        var denser = row.Latent / (row.TemperatureK * row.PressurePa * (row.VapourVolume - (1 / row.LiquidDensity)));
        var gasWPerK = Math.Max(duty, 1) * denser;
        // A core that is mostly dry has little to cool and little liquid to boil: the clutch cycles fast.
        var heatCapacity = c.Design.CoreHeatCapacity * (0.15 + (0.85 * p.BoilingShare));
        // The resting evaporator cannot rise above the parked pressure.
        var resting = Smooth.Min(airK, c.Table.SaturationTemperatureK(c.StaticPa), 1);
        var cycle = SwitchCycle.Of(offK, onK, p.EvaporatingK, resting, heatCapacity, airWPerK + gasWPerK, airWPerK);
        var cooling = airWPerK * Math.Max(airK - cycle.MeanK, 0);
        c.Coil.AirOut(cycle.MeanK, cooling, out var outK, out _, out var condensate);
        var drop = p.EvaporatorPa - steady.LowSidePa;
        var table = c.Table;
        double Low(double k) => Math.Max(table.SaturationPressurePa(k) - drop, table.MinPressurePa);
        // At rest nothing boils hard and nothing flows: the refrigerant comes up to its fins, the gauge to the
        // evaporator. A pressure switch opens and closes at its own pressures, so there the film does not count.
        var film =
            c.Kind == CompressorKind.FixedWithFinThermostat ? ReadingMaker.BoilingFinK(c, p) - p.EvaporatingK : 0;
        double Resting(double k) => table.SaturationPressurePa(Math.Min(k + film, resting));
        var onPa = c.Kind == CompressorKind.FixedWithFinThermostat ? Math.Max(Resting(onK), Low(offK)) : Low(onK);
        var offMeanPa =
            c.Kind == CompressorKind.FixedWithFinThermostat
                ? Math.Max(Resting(cycle.OffMeanK), Low(offK))
                : Low(cycle.OffMeanK);
        var restingK = p.CondensingK + (RestingFall * Math.Min(0, c.CondenserAirK - p.CondensingK));
        var restingPa = Math.Min(c.Table.SaturationPressurePa(restingK) + c.AirPa, steady.HighSidePa);
        return steady with
        {
            LowSidePa = (cycle.Duty * Low(cycle.OnMeanK)) + ((1 - cycle.Duty) * offMeanPa),
            LowSideMinPa = Low(offK),
            LowSideMaxPa = onPa,
            LowSideRunningPa = Low(cycle.OnMeanK),
            HighSidePa = (cycle.Duty * steady.HighSidePa) + ((1 - cycle.Duty) * restingPa),
            HighSideMinPa = restingPa,
            VentK = VentAir.AtK(c, conditions, faults, outK),
            FinK = steady.FinK + cycle.MeanK - p.EvaporatingK,
            EvaporatingK = cycle.MeanK,
            CoolingW = cooling,
            HeatRejectedW = cycle.Duty * steady.HeatRejectedW,
            PowerW = cycle.Duty * steady.PowerW,
            FlowKgPerS = cooling / Math.Max(p.H1 - p.H4, 1e3),
            CondensateKgPerS = condensate,
            Duty = cycle.Duty,
            CyclesPerMinute = 60 / cycle.PeriodS,
        };
    }
}
