using Tightcold.Properties;

namespace Tightcold.Loop;

/// <summary>The day and how the car is run. SI; valid ranges in <see cref="LoopLimits"/>.</summary>
public sealed record LoopConditions
{
    /// <summary>Air around the car, K.</summary>
    public double AmbientK { get; init; } = 303.15;

    /// <summary>Relative humidity of that air, 0 to 1.</summary>
    public double RelativeHumidity { get; init; } = 0.5;

    /// <summary>Barometric pressure at the place, Pa absolute.</summary>
    public double BarometricPa { get; init; } = 101325;

    public double EngineRpm { get; init; } = 1500;

    /// <summary>Air onto the condenser's face with a sound fan, m/s.</summary>
    public double CondenserFaceMPerS { get; init; } = 2.0;

    /// <summary>Air that somebody else's fan before the condenser blows at its face, m/s; it does not hang on the car's
    /// own.</summary>
    public double AidFaceMPerS { get; init; }

    /// <summary>The low-pressure switch is bridged: it stops nothing.</summary>
    public bool LowSwitchBridged { get; init; }

    /// <summary>Warming of that air by what comes back from the hot side, K.</summary>
    public double ReentryK { get; init; } = 7;

    /// <summary>Blower setting, share of full.</summary>
    public double BlowerShare { get; init; } = 1;

    /// <summary>Share of outside air into the evaporator, 0 recirculated to 1 fresh.</summary>
    public double FreshShare { get; init; } = 1;

    /// <summary>Air in the cabin, K.</summary>
    public double CabinK { get; init; } = 303.15;

    /// <summary>Relative humidity in the cabin, 0 to 1.</summary>
    public double CabinRelativeHumidity { get; init; } = 0.5;

    /// <summary>The heater core's air when the blend door leaks, K.</summary>
    public double HeaterK { get; init; } = 348.15;

    /// <summary>
    /// The usual workshop test: doors open, so the cabin is at ambient; full blower, no fan in front of the car but its
    /// own, and some of the hot air behind the condenser coming round again.
    /// </summary>
    /// <param name="ambientK">K.</param>
    /// <param name="relativeHumidity">0 to 1.</param>
    /// <param name="engineRpm">Turns a minute.</param>
    /// <param name="altitudeM">Above sea level, m.</param>
    public static LoopConditions DoorsOpen(
        double ambientK,
        double relativeHumidity,
        double engineRpm = 1500,
        double altitudeM = 0
    ) =>
        new()
        {
            AmbientK = ambientK,
            RelativeHumidity = relativeHumidity,
            CabinK = ambientK,
            CabinRelativeHumidity = relativeHumidity,
            EngineRpm = engineRpm,
            BarometricPa = StandardAtmosphere.PressurePa(altitudeM),
        };

    /// <summary>Idling with windows shut on recirculation: the cabin has cooled and dried.</summary>
    public LoopConditions Recirculating(double cabinK, double cabinRelativeHumidity) =>
        this with
        {
            FreshShare = 0,
            CabinK = cabinK,
            CabinRelativeHumidity = cabinRelativeHumidity,
        };
}
