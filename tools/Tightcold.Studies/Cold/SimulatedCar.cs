using Tightcold.Numerics.Roots;
using Tightcold.Numerics.Sampling;
using Tightcold.Procedures.Cold;
using Tightcold.Properties;

namespace Tightcold.Studies.Cold;

/// <summary>An invented car with a little loop of its own, built otherwise than the model that judges it: a compressor
/// with displacement and speed, a condenser and an evaporator with heat transfer, and a cabin that cools.</summary>
/// <remarks>
/// Compressor ṁ = η·V·n·ρ″(T_evap); Q = ṁ·(h″(T_evap) − h′(T_cond − 5 K)); heat rejected (1 + w)·Q warms the
/// condenser's air: T_cond = T_air + (1 + w)·Q/C; wet coil by enthalpy potential with 1 − e^(−NTU); fins T_evap + Q·R;
/// the control keeps the fins above their floor. Cabin: C·dT/dt = U·(T_out − T) + sun − ṁ_air·c·(T − T_vent). Textbook
/// heat exchangers; the parameters are drawn from what small and middle cars have (common practice).
/// </remarks>
public sealed class SimulatedCar
{
    private readonly double displacementM3,
        efficiency,
        speedIdle,
        speedDriving,
        condenserIdle,
        condenserDriving,
        ntuFull,
        finResistance,
        airM3PerS,
        floorK,
        ductK,
        cabinJPerK,
        cabinWPerK,
        work,
        flowShare,
        condenserShare,
        extraCondenserK,
        heaterShare;
    private readonly Fluid fluid = FluidCatalog.Get("R134a");

    public SimulatedCar(SeededChance chance, CarFault fault)
    {
        displacementM3 = chance.Between(110e-6, 170e-6);
        efficiency = chance.Between(0.58, 0.75);
        speedIdle = chance.Between(900, 1250) / 60;
        speedDriving = chance.Between(2000, 3600) / 60;
        condenserIdle = chance.Between(320, 560);
        condenserDriving = chance.Between(600, 1100);
        airM3PerS = chance.Between(0.095, 0.145);
        ntuFull = chance.Between(1.5, 2.6);
        finResistance = chance.Between(0.6e-3, 1.2e-3);
        floorK = 273.15 + chance.Between(0.5, 3.5);
        ductK = chance.Between(0.5, 2.5);
        cabinJPerK = chance.Between(60e3, 120e3);
        cabinWPerK = chance.Between(50, 110);
        work = chance.Between(0.3, 0.45);
        Fault = fault;
        flowShare = fault switch
        {
            CarFault.Undercharge => chance.Between(0.2, 0.67),
            CarFault.WeakCompressor => chance.Between(0.33, 0.6),
            _ => 1,
        };
        condenserShare = fault == CarFault.BlockedCondenser ? chance.Between(0.16, 0.4) : 1;
        extraCondenserK = fault == CarFault.AirOrOvercharge ? chance.Between(10, 25) : 0;
        heaterShare = fault == CarFault.BlendDoor ? chance.Between(0.08, 0.30) : 0;
    }

    public CarFault Fault { get; }

    /// <summary>Settled vent temperature, K.</summary>
    public double VentK(double intakeK, double humidityRatio, double condenserAirK, double barometerPa, bool driving)
    {
        var speed = driving ? speedDriving : speedIdle;
        var condenser = (driving ? condenserDriving : condenserIdle) * condenserShare;
        var humidity = Math.Min(humidityRatio, DampAir.SaturatedRatio(intakeK, barometerPa));
        var air = airM3PerS * barometerPa / (287.05 * intakeK * (1 + 1.608 * humidity));
        var reach = 1 - Math.Exp(-ntuFull);
        double Given(double evaporatorK) => Capacity(evaporatorK, speed, condenser, condenserAirK);
        // Heat that the refrigerant would take and the air does not give.
        double Short(double boilingK)
        {
            var given = Given(boilingK);
            var finK = boilingK + given * finResistance;
            var taken =
                finK >= intakeK
                    ? 0
                    : air
                        * reach
                        * (
                            DampAir.Enthalpy(intakeK, humidity)
                            - DampAir.Enthalpy(finK, Math.Min(humidity, DampAir.SaturatedRatio(finK, barometerPa)))
                        );
            return given - taken;
        }
        var evaporatorK = BracketedRoot.Nearest(Short, 248, Math.Min(intakeK, 320), 1e-3);
        var finK = Math.Min(intakeK, Math.Max(evaporatorK + Given(evaporatorK) * finResistance, floorK));
        var off = intakeK - reach * (intakeK - finK) + ductK;
        return off + heaterShare * (348 - off);
    }

    /// <summary>Cools a cabin from <paramref name="cabinK"/> and returns vent and cabin at the given moments.</summary>
    public (double VentK, double CabinK)[] PullDown(
        double cabinK,
        double cabinHumidity,
        double outsideK,
        double outsideHumidity,
        double barometerPa,
        double sunW,
        bool recirculated,
        Func<double, bool> driving,
        double condenserExtraK,
        double soakK,
        double[] seconds
    )
    {
        var result = new (double, double)[seconds.Length];
        const double step = 60;
        double time = 0,
            humidity = cabinHumidity;
        for (var i = 0; i < seconds.Length; i++)
        {
            var vent = cabinK;
            while (true)
            {
                var moving = driving(time);
                var condenserAir = outsideK + (moving ? 0 : condenserExtraK);
                vent =
                    VentK(
                        recirculated ? cabinK : outsideK,
                        recirculated ? humidity : outsideHumidity,
                        condenserAir,
                        barometerPa,
                        moving
                    )
                    + soakK * Math.Exp(-time / 150);
                if (time >= seconds[i])
                    break;
                var air = airM3PerS * 1.15;
                cabinK += step / cabinJPerK * (cabinWPerK * (outsideK - cabinK) + sunW - air * 1006 * (cabinK - vent));
                // The coil dries the air it recirculates; people and leaks dampen it.
                humidity +=
                    step
                    / 600
                    * (
                        0.35 * outsideHumidity
                        + 0.65 * Math.Min(outsideHumidity, DampAir.SaturatedRatio(vent, barometerPa))
                        - humidity
                    );
                time += step;
            }
            result[i] = (vent, cabinK);
        }
        return result;
    }

    private double Capacity(double evaporatorK, double speed, double condenser, double condenserAirK)
    {
        var suction = fluid.Fast.SaturationAtTemperature(evaporatorK);
        var flow = efficiency * displacementM3 * speed * suction.VapourDensityKgPerM3 * flowShare;
        var given = flow * 150e3;
        // The condensing temperature hangs on the heat and the heat on it: a few rounds settle it.
        for (var i = 0; i < 4; i++)
        {
            var condensingK = Math.Clamp(
                condenserAirK + 3 + extraCondenserK + (1 + work) * given / condenser,
                condenserAirK,
                365
            );
            var liquid = fluid.Fast.SaturationAtTemperature(condensingK - 5).LiquidEnthalpyJPerKg;
            given = 0.5 * given + 0.5 * flow * Math.Max(0, suction.VapourEnthalpyJPerKg - liquid);
        }
        return given;
    }
}
