using Tightcold.Numerics.Roots;
using Tightcold.Properties;

namespace Tightcold.SecondWorld.Cars;

/// <summary>
/// Puts clutch, switches and standing circuit round the steady state. Cycling is a relaxation between the state it
/// would reach pumping and the one it would reach standing, with time constants of the trade (some seconds on, tens of
/// seconds off).
/// </summary>
public static class Runner
{
    private const double GasConstant = 8.314462618;
    private const double PressureOnS = 7;
    private const double PressureOffS = 28;
    private const double AirOnS = 25;
    private const double AirOffS = 45;
    private const double HighOnS = 9;
    private const double HighOffS = 45;
    private const double LowPressureLockPa = 1.9e5;

    /// <summary>Absolute pressure of the standing circuit, even temperature.</summary>
    public static double StandingPa(CarBuild car, Condition condition, double celsius)
    {
        ArgumentNullException.ThrowIfNull(car);
        ArgumentNullException.ThrowIfNull(condition);
        var fluid = FluidCatalog.Get(car.Refrigerant);
        var temperature = celsius + 273.15;
        var charge = condition.ChargeKg ?? car.LabelKg;
        var line = fluid.SaturationAtTemperature(temperature);
        double InGas(double pressurePa) =>
            fluid.AtTemperaturePressure(temperature, pressurePa).DensityKgPerM3 * car.VolumeM3
            + car.OilKg * Oil.Dissolved(fluid.Fast, pressurePa, celsius);
        var own = line.PressurePa;
        var free =
            charge - line.VapourDensityKgPerM3 * car.VolumeM3 - car.OilKg * Oil.Dissolved(fluid.Fast, own, celsius);
        if (free < 0)
        {
            // No liquid: the pressure at which gas and oil hold it all.
            own = BracketedRoot.Nearest(pascals => InGas(pascals) - charge, 1e3, 0.9995 * line.PressurePa, 1e-6);
        }
        var liquid = Math.Max(0, free) / (line.LiquidDensityKgPerM3 * car.VolumeM3);
        return own * condition.VapourPressureFactor
            + condition.AirMol * GasConstant * temperature / (car.VolumeM3 * Math.Max(0.2, 1 - liquid));
    }

    public static Running Run(CarBuild car, Condition condition, Setup setup)
    {
        ArgumentNullException.ThrowIfNull(car);
        ArgumentNullException.ThrowIfNull(condition);
        ArgumentNullException.ThrowIfNull(setup);
        var standing = StandingPa(car, condition, setup.AmbientC + 4);
        var state = new Circuit(car, condition, setup).Work();
        var factor = condition.VapourPressureFactor;
        var low = state.SuctionPa * factor;
        var high = (car.HighPortOnLiquidLine ? state.LiquidPa : state.DischargePa) * factor;
        var gauge = standing - setup.AirPressurePa;
        var locked = gauge < LowPressureLockPa || car.Control == Control.PressureSwitch && standing < car.CutInPa;
        if (condition.ClutchOpen || locked)
        {
            return Of(
                state,
                setup,
                false,
                standing,
                standing,
                standing,
                standing,
                0,
                0,
                state.InletC + 1 + condition.HeaterShare * (85 - state.InletC)
            );
        }
        if (condition.DeadHeadPa is { } head)
        {
            // Gas goes round inside: both sides at what stands, drawn apart a little, a little warm.
            var warm = StandingPa(car, condition, setup.AmbientC + 6);
            var warmed = state.InletC + 0.5;
            return Of(
                state,
                setup,
                true,
                warm - 0.5 * head,
                warm - 0.5 * head,
                warm + 0.5 * head,
                warm + 0.5 * head,
                0,
                1,
                warmed + condition.HeaterShare * (85 - warmed)
            ) with
            {
                Trusted = true,
                Dead = true,
            };
        }
        var cycles = car.Control switch
        {
            Control.PressureSwitch => Cycle.Between(
                state.SuctionPa,
                standing,
                car.CutOutPa,
                car.CutInPa,
                PressureOnS * (0.35 + 0.65 * Math.Min(1, (condition.ChargeKg ?? car.LabelKg) / car.LabelKg)),
                PressureOffS
            ),
            Control.Thermostat => Cycle.Between(
                state.AirOffC,
                state.InletC,
                car.ThermostatOffC,
                car.ThermostatOnC,
                AirOnS,
                AirOffS
            ),
            _ => null,
        };
        var tooHigh = state.AtHighLimit || state.DischargePa * factor > car.HighCutOutPa;
        // The suction switch opens long before a flooded condenser trips the other one.
        if (tooHigh && !(car.Control == Control.PressureSwitch && cycles is not null))
        {
            // Trips, falls, comes back: the gauge climbs to the trip again and again.
            return Of(
                state,
                setup,
                true,
                low,
                Math.Min(low + 1.8e5, 0.6 * standing + 0.4 * low),
                car.HighCutInPa,
                car.HighCutOutPa,
                1.2,
                0.45,
                state.VentC + 0.5 * (state.InletC - state.VentC)
            );
        }
        if (cycles is not { } cycle)
            return Of(state, setup, true, low, low, high, high, 0, 1, state.VentC);

        double lowMin,
            lowMax;
        if (car.Control == Control.PressureSwitch)
        {
            lowMin = car.CutOutPa - 0.08e5;
            lowMax = car.CutInPa + 0.08e5;
        }
        else
        {
            lowMax = standing + (low - standing) * Math.Exp(-cycle.OffS / PressureOffS);
            lowMin = low + (lowMax - low) * Math.Exp(-cycle.OnS / PressureOnS);
            lowMax = standing + (lowMin - standing) * Math.Exp(-cycle.OffS / PressureOffS);
        }
        var rest = standing * 0.7 + 0.3 * high;
        double on = Math.Exp(-cycle.OnS / HighOnS),
            off = Math.Exp(-cycle.OffS / HighOffS);
        var highMin = (rest * (1 - off) + high * (1 - on) * off) / (1 - on * off);
        var highMax = high + (highMin - high) * on;
        var cold = Math.Max(
            state.VentC,
            car.Control == Control.Thermostat ? car.ThermostatOffC + car.DuctGainK : state.VentC
        );
        var vent = cold + (state.InletC - cold) * (1 - cycle.Duty) * (1 - Math.Exp(-cycle.OffS / 40));
        return Of(
            state,
            setup,
            true,
            lowMin,
            lowMax,
            Math.Min(highMin, highMax),
            highMax,
            60 / (cycle.OnS + cycle.OffS),
            cycle.Duty,
            vent
        );
    }

    private static Running Of(
        Working state,
        Setup setup,
        bool clutch,
        double lowMin,
        double lowMax,
        double highMin,
        double highMax,
        double cycles,
        double duty,
        double vent
    ) =>
        new()
        {
            Trusted = state.Solved,
            Setup = setup,
            State = state,
            ClutchIn = clutch,
            LowMinPa = lowMin - setup.AirPressurePa,
            LowMaxPa = lowMax - setup.AirPressurePa,
            HighMinPa = highMin - setup.AirPressurePa,
            HighMaxPa = highMax - setup.AirPressurePa,
            CyclesPerMinute = cycles,
            Duty = duty,
            VentC = vent,
        };
}
