using System.Collections.Immutable;
using Tightcold.Numerics;
using Tightcold.Numerics.Roots;
using Tightcold.Properties;

namespace Tightcold.Procedures.Cans;

/// <summary>
/// A can that gives vapour (upright) or liquid (inverted): one temperature for liquid, vapour and wall.
/// </summary>
/// <remarks>
/// Mass and energy of an open vessel: dm/dt = −ṁ, d(U + C_wall·T)/dt = G·(T_env − T) − ṁ·h_out (first law for a control
/// volume; textbook), with U of liquid and vapour in equilibrium in a fixed volume by the reference equation of state.
/// Backward Euler: each step solves its energy balance for the temperature at its end, so that energy closes to the
/// tolerance of the root at any step, and the stiff state in which the can just keeps the system's pressure does not
/// oscillate. See docs/physics/can.md.
/// </remarks>
public static class CanModel
{
    /// <summary>Below this flow with liquid left, a can is called stalled: a person would think it empty.</summary>
    public const double StallKgPerS = 1e-4;

    private const double DeadKgPerS = 2e-7;
    private const double ColdestK = 185;
    private const double StepTemperatureK = 0.35;
    private const double StepMassShare = 0.02;
    private const double LongestStepS = 30;
    private const double ShortestStepS = 1e-3;
    private const double WaterJPerKgK = 4180;
    private const int MostSteps = 20_000;

    /// <param name="fluid">The refrigerant.</param>
    /// <param name="body">The vessel.</param>
    /// <param name="massKg">In it at the start, above 0 and not more than it can hold at 52 °C.</param>
    /// <param name="temperatureK">Of can and contents at the start, 223 to 325.15 K.</param>
    /// <param name="inverted">Liquid leaves first.</param>
    /// <param name="around">What warms it.</param>
    /// <param name="path">Tap, core and hose.</param>
    /// <param name="system">Where it flows to.</param>
    /// <param name="wantedKg">Stop when this has left; above 0.</param>
    /// <param name="mostSeconds">Stop then in any case.</param>
    /// <exception cref="ArgumentOutOfRangeException">An input outside its range or not a number.</exception>
    public static CanRun Run(
        Fluid fluid,
        CanBody body,
        double massKg,
        double temperatureK,
        bool inverted,
        CanSurroundings around,
        FlowPath path,
        Receiver system,
        double wantedKg,
        double mostSeconds = 4 * 3600
    )
    {
        Check(fluid, body, massKg, temperatureK, around, path, wantedKg);
        var moments = ImmutableArray.CreateBuilder<CanMoment>();
        double mass = massKg,
            kelvin = temperatureK,
            envK = around.TemperatureK,
            time = 0,
            step = 0.25,
            heat = 0,
            enthalpy = 0,
            given = 0;
        double? stall = null;
        var receiver = system;
        var now = new Balance(fluid, body, inverted, path, mass, 0, 0, 0, 0, receiver.PressurePa(fluid));
        var first = now.Contents(kelvin, mass);
        var energyStart = first.EnergyJ;
        var energy = energyStart;
        moments.Add(Moment(0, mass, first, kelvin, now));
        var end = CanEnd.TimeUp;
        if (now.SystemPa > first.PressurePa * 1.001)
            end = CanEnd.Backflow;
        for (var i = 0; i < MostSteps && end == CanEnd.TimeUp && time < mostSeconds; i++)
        {
            step = Math.Min(step, mostSeconds - time);
            var systemPa = receiver.PressurePa(fluid);
            now = new Balance(fluid, body, inverted, path, mass, energy, step, around.ConductanceWPerK, envK, systemPa);
            if (
                BracketedRoot.Find(now, ColdestK, Math.Max(kelvin, envK) + 1, 1e-9) is not Solved<double>.Converged root
            )
                throw new FlashDidNotConvergeException(
                    fluid.Name,
                    "can energy balance",
                    1,
                    "no temperature closes the energy of this step"
                );
            var nextK = root.Value;
            var rate = now.RateKgPerS(nextK, out var outlet);
            var drawn = rate * step;
            var next = receiver.HeldPa is null ? receiver.With(receiver.MassKg + drawn) : receiver;
            var risePa = next.PressurePa(fluid) - systemPa;
            var tooFar =
                Math.Abs(nextK - kelvin) > StepTemperatureK
                || drawn > StepMassShare * mass
                || risePa > Math.Max(0.2 * (outlet.PressurePa - systemPa), 300);
            if (tooFar && step > ShortestStepS)
            {
                step *= 0.5;
                continue;
            }
            if (given + drawn > wantedKg * (1 + 1e-9) && drawn > 0 && step > ShortestStepS)
            {
                step *= Math.Max(0.1, (wantedKg - given) / drawn);
                continue;
            }
            var heatStep = around.ConductanceWPerK * (envK - nextK) * step;
            if (around.WaterKg is { } water)
                envK -= heatStep / (water * WaterJPerKgK);
            heat += heatStep;
            enthalpy += drawn * outlet.OutEnthalpyJPerKg;
            energy += heatStep - drawn * outlet.OutEnthalpyJPerKg;
            mass -= drawn;
            given += drawn;
            kelvin = nextK;
            receiver = next;
            time += step;
            var contents = now.Contents(kelvin, mass);
            if (rate < StallKgPerS && contents.LiquidKg > 0.005)
                stall ??= time;
            moments.Add(
                Moment(time, mass, contents, kelvin, now) with
                {
                    RateKgPerS = rate,
                    SystemPa = receiver.PressurePa(fluid),
                }
            );
            if (given >= wantedKg * (1 - 1e-7))
                end = CanEnd.Delivered;
            else if (rate < DeadKgPerS)
                end = contents.LiquidKg > 1e-4 ? CanEnd.Equalised : CanEnd.Emptied;
            step = Math.Min(step * 1.5, LongestStepS);
        }
        var last = moments[^1];
        var final = new Balance(fluid, body, inverted, path, mass, 0, 0, 0, 0, last.SystemPa).Contents(kelvin, mass);
        return new(
            moments.ToImmutable(),
            end,
            given,
            stall,
            heat,
            enthalpy,
            final.EnergyJ - (energyStart + heat - enthalpy),
            envK
        );
    }

    private static CanMoment Moment(double time, double mass, Contents contents, double kelvin, in Balance balance) =>
        new(
            time,
            mass,
            contents.LiquidKg,
            kelvin,
            contents.PressurePa,
            balance.SystemPa,
            balance.RateKgPerS(kelvin, out _)
        );

    private static void Check(
        Fluid fluid,
        CanBody body,
        double massKg,
        double temperatureK,
        CanSurroundings around,
        FlowPath path,
        double wantedKg
    )
    {
        static void Need(bool good, string name, double value, string allowed)
        {
            if (!good)
                throw new ArgumentOutOfRangeException(name, value, allowed);
        }
        Need(
            body.InnerVolumeM3 is > 1e-5 and < 0.2,
            nameof(body),
            body.InnerVolumeM3,
            "an inner volume of 10 mL to 200 L is needed"
        );
        Need(
            body.WallHeatCapacityJPerK >= 0 && double.IsFinite(body.WallHeatCapacityJPerK),
            nameof(body),
            body.WallHeatCapacityJPerK,
            "a heat capacity of 0 J/K or more is needed"
        );
        Need(
            temperatureK is >= 223 and <= CanSurroundings.HottestBathK,
            nameof(temperatureK),
            temperatureK,
            "a can is between -50 and 52 °C"
        );
        Need(
            around.TemperatureK is >= 223 and <= CanSurroundings.HottestBathK,
            nameof(around),
            around.TemperatureK,
            "surroundings are between -50 and 52 °C"
        );
        Need(
            around.ConductanceWPerK >= 0 && double.IsFinite(around.ConductanceWPerK),
            nameof(around),
            around.ConductanceWPerK,
            "0 W/K or more"
        );
        Need(
            path.EffectiveAreaM2 > 0 && double.IsFinite(path.EffectiveAreaM2),
            nameof(path),
            path.EffectiveAreaM2,
            "an open path is needed"
        );
        var full =
            body.InnerVolumeM3 * fluid.SaturationAtTemperature(CanSurroundings.HottestBathK).LiquidDensityKgPerM3;
        Need(
            massKg > 0 && massKg < full,
            nameof(massKg),
            massKg,
            "more than nothing and not more liquid than the can holds at 52 °C"
        );
        Need(wantedKg > 0, nameof(wantedKg), wantedKg, "above 0 kg");
    }

    /// <summary>Pressure, energy and outlet of the can at a temperature and a mass.</summary>
    internal readonly record struct Contents(
        double PressurePa,
        double EnergyJ,
        double LiquidKg,
        double OutEnthalpyJPerKg,
        double OutDensityKgPerM3,
        bool LiquidOut
    );

    /// <summary>The energy of one step, as a function of the temperature at its end: rising, with one root.</summary>
    internal readonly struct Balance(
        Fluid fluid,
        CanBody body,
        bool inverted,
        FlowPath path,
        double massKg,
        double energyJ,
        double stepS,
        double conductance,
        double envK,
        double systemPa
    ) : IScalarFunction
    {
        public double SystemPa => systemPa;

        public double Evaluate(double kelvin)
        {
            var rate = RateKgPerS(kelvin, out var outlet);
            // Never more than is there: the last step of a dry can.
            var drawn = Math.Min(rate * stepS, 0.5 * massKg);
            var after = Contents(kelvin, massKg - drawn);
            return after.EnergyJ - energyJ + drawn * outlet.OutEnthalpyJPerKg - conductance * (envK - kelvin) * stepS;
        }

        public double RateKgPerS(double kelvin, out Contents outlet)
        {
            outlet = Contents(kelvin, massKg);
            return outlet.LiquidOut
                ? path.LiquidKgPerS(outlet.PressurePa, outlet.OutDensityKgPerM3, systemPa)
                : path.VapourKgPerS(outlet.PressurePa, outlet.OutDensityKgPerM3, systemPa);
        }

        public Contents Contents(double kelvin, double mass)
        {
            var saturation = fluid.SaturationAtTemperature(kelvin);
            var wall = body.WallHeatCapacityJPerK * kelvin;
            double liquid = saturation.LiquidDensityKgPerM3,
                vapour = saturation.VapourDensityKgPerM3;
            if (mass > vapour * body.InnerVolumeM3)
            {
                // m = m_l + ρ″·(V − m_l/ρ′)
                var liquidKg = (mass - vapour * body.InnerVolumeM3) / (1 - vapour / liquid);
                var energy =
                    liquidKg * (saturation.LiquidEnthalpyJPerKg - saturation.PressurePa / liquid)
                    + (mass - liquidKg) * (saturation.VapourEnthalpyJPerKg - saturation.PressurePa / vapour);
                var liquidOut = inverted && liquidKg > 1e-3;
                return new(
                    saturation.PressurePa,
                    energy + wall,
                    liquidKg,
                    liquidOut ? saturation.LiquidEnthalpyJPerKg : saturation.VapourEnthalpyJPerKg,
                    liquidOut ? liquid : vapour,
                    liquidOut
                );
            }
            var state = fluid.AtTemperatureDensity(kelvin, mass / body.InnerVolumeM3);
            return new(
                state.PressurePa,
                mass * state.InternalEnergyJPerKg + wall,
                0,
                state.EnthalpyJPerKg,
                state.DensityKgPerM3,
                false
            );
        }
    }
}
