using Tightcold.Numerics.Interpolation;
using Tightcold.Properties;

namespace Tightcold.Procedures.Evacuation;

/// <summary>
/// Expected pressure against time: V·dp/dt = −S_eff·(p − p_ult) + gas from oil + vapour from water, with
/// 1/S_eff = 1/S + 1/C(p̄). Water boils off at its vapour pressure as long as the parts bring heat to it.
/// </summary>
public static class EvacuationModel
{
    private const double GasConstant = 8.314462618;
    private const double WaterMolarMassKgPerMol = 0.018015;
    private const double WaterLatentJPerKg = 2.45e6;

    /// <summary>Heat that reaches wet spots from the metal around them, W/K; assumed: 5 g then leave in about half an
    /// hour.</summary>
    private const double WetSpotWPerK = 0.5;

    /// <summary>Gas that a litre of refrigerant oil still gives off, Pa·m³ over its fading time; assumed from rises of
    /// some hundred micron that trade practice calls normal.</summary>
    private const double OilGasPaM3PerM3 = 6000;
    private const double OilFadeSeconds = 1500;

    /// <summary>An expansion valve or orifice between the sides: about 1.5 mm × 10 mm of narrow passage.</summary>
    private const double DeviceBoreM = 1.5e-3,
        DeviceLengthM = 10e-3;

    /// <summary>The far half's share of the volume when pulling on one side.</summary>
    private const double FarShare = 0.5;

    private const int FirstK = 230,
        LastK = 375;

    /// <summary>ln of water's vapour pressure at whole kelvins: between them straight in T, within 0.02 %.</summary>
    private static readonly double[] LogSaturation =
    [
        .. Enumerable
            .Range(FirstK, LastK - FirstK + 1)
            .Select(kelvin => Math.Log(WaterVapour.SaturationPressurePa(kelvin))),
    ];

    private static double Saturation(double kelvins) => Math.Exp(StraightLines.At(LogSaturation, kelvins - FirstK));

    /// <param name="at">Times wanted, rising, seconds.</param>
    /// <param name="oilFactor">Multiplies the gas from the oil.</param>
    /// <param name="coreResistance">How much a valve core chokes.</param>
    public static EvacuationPoint[] Run(
        EvacuationSetup setup,
        ReadOnlySpan<double> at,
        double waterKg,
        double oilFactor = 1,
        double coreResistance = EvacuationSetup.CoreResistance
    )
    {
        var result = new EvacuationPoint[at.Length];
        // Two rooms when pulled on one side: the near one at the port, the far one behind the expansion device.
        double near = setup.BarometerPa,
            far = near,
            water = waterKg,
            wetK = setup.PartTemperatureK,
            time = 0;
        var nearVolume = setup.VolumeM3 * (setup.BothSides ? 1 : 1 - FarShare);
        var farVolume = setup.VolumeM3 * FarShare;
        for (var i = 0; i < at.Length; i++)
        {
            while (time < at[i])
            {
                var step = Math.Min(
                    at[i] - time,
                    time < 20 ? 0.2
                        : time < 300 ? 1
                        // A wet spot follows the pump within some twenty seconds, what the oil gives off within
                        // minutes.
                        : water > 0 ? 3
                        : time < 1800 ? 5
                        : 20
                );
                var gas = oilFactor * OilGasPaM3PerM3 * setup.OilM3 / OilFadeSeconds * Math.Exp(-time / OilFadeSeconds);
                var (vapour, leaves, cooled) = Water(setup, setup.BothSides ? near : far, water, wetK, step);
                water -= leaves;
                wetK = cooled;
                near = Pull(setup, near, nearVolume, gas + (setup.BothSides ? vapour : 0), step, coreResistance);
                if (!setup.BothSides)
                    (near, far) = Even(near, nearVolume, far + vapour * step / farVolume, farVolume, step);
                time += step;
            }
            var toCome = oilFactor * OilGasPaM3PerM3 * setup.OilM3 * Math.Exp(-time / OilFadeSeconds) / setup.VolumeM3;
            result[i] = new(at[i], setup.BothSides ? near : far, Math.Max(0, water), toCome);
        }
        return result;
    }

    /// <summary>Exponential step towards the pressure where inflow and pumping meet.</summary>
    private static double Pull(
        EvacuationSetup setup,
        double pressurePa,
        double volumeM3,
        double inflowPaM3PerS,
        double step,
        double coreResistance
    )
    {
        // The pump sees less than the port: half the port's pressure stands for the mean along the hose once it chokes.
        var path = setup.PathConductance(Math.Max(0.5 * pressurePa, 0.5), coreResistance);
        var rate = Conductance.InSeries(setup.FreeAirM3PerS, path);
        var meets = setup.UltimatePa + inflowPaM3PerS / rate;
        return meets + (pressurePa - meets) * Math.Exp(-rate * step / volumeM3);
    }

    private static (double Near, double Far) Even(
        double near,
        double nearVolume,
        double far,
        double farVolume,
        double step
    )
    {
        var between = Conductance.Pipe(DeviceBoreM, DeviceLengthM, 0.5 * (near + far));
        var meets = (near * nearVolume + far * farVolume) / (nearVolume + farVolume);
        var fades = Math.Exp(-between * (1 / nearVolume + 1 / farVolume) * step);
        return (meets + (near - meets) * fades, meets + (far - meets) * fades);
    }

    /// <summary>Vapour given off (Pa·m³/s), water that leaves in the step (kg), and the wet spot's temperature after
    /// it.</summary>
    private static (double Vapour, double LeavesKg, double WetK) Water(
        EvacuationSetup setup,
        double pressurePa,
        double waterKg,
        double wetK,
        double step
    )
    {
        if (!(waterKg > 1e-9))
            return (0, waterKg, setup.PartTemperatureK);
        var heat = WetSpotWPerK * (setup.PartTemperatureK - wetK);
        var saturation = Saturation(wetK);
        // Boiling while the pressure is below saturation: as fast as the pump takes it, and the wet spot cools until
        // the heat that comes in carries it.
        var taken =
            pressurePa < saturation
                ? (saturation - pressurePa)
                    * WaterMolarMassKgPerMol
                    / (GasConstant * wetK)
                    * Conductance.InSeries(setup.FreeAirM3PerS, setup.PathConductance(0.5 * saturation))
                    + 1e-9
                : 0;
        var leaves = Math.Min(waterKg, taken * step);
        var thermalMass = waterKg * 4200 + 20;
        var next = Math.Clamp(
            wetK + (heat * step - leaves * WaterLatentJPerKg) / thermalMass,
            235,
            setup.PartTemperatureK
        );
        return (leaves / step / WaterMolarMassKgPerMol * GasConstant * setup.PartTemperatureK, leaves, next);
    }
}
