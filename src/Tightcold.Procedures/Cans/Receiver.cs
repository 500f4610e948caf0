using Tightcold.Properties;

namespace Tightcold.Procedures.Cans;

/// <summary>Where the refrigerant goes: a running low side that holds its pressure, or a system at rest that
/// fills.</summary>
public readonly record struct Receiver
{
    private Receiver(double? heldPa, double volumeM3, double temperatureK, double massKg) =>
        (HeldPa, VolumeM3, TemperatureK, MassKg) = (heldPa, volumeM3, temperatureK, massKg);

    /// <summary>Pa absolute of a running low side; null for a system at rest.</summary>
    public double? HeldPa { get; }
    public double VolumeM3 { get; }
    public double TemperatureK { get; }
    public double MassKg { get; }

    /// <summary>Engine running: the compressor keeps the low side at <paramref name="pressurePa"/> absolute.</summary>
    public static Receiver Running(double pressurePa) =>
        pressurePa > 0
            ? new(pressurePa, 0, 0, 0)
            : throw new ArgumentOutOfRangeException(nameof(pressurePa), pressurePa, "must be above 0 Pa");

    /// <summary>Engine off: a closed volume at one temperature (its metal is heavy), empty or holding <paramref
    /// name="massKg"/>.</summary>
    public static Receiver AtRest(double volumeM3, double temperatureK, double massKg) =>
        volumeM3 > 0 && massKg >= 0
            ? new(null, volumeM3, temperatureK, massKg)
            : throw new ArgumentOutOfRangeException(
                nameof(volumeM3),
                volumeM3,
                "a volume above 0 and a mass of 0 or more are needed"
            );

    public Receiver With(double massKg) => new(HeldPa, VolumeM3, TemperatureK, massKg);

    /// <summary>Absolute pressure; saturation while liquid is in it.</summary>
    public double PressurePa(Fluid fluid)
    {
        if (HeldPa is { } held)
            return held;
        if (MassKg <= 0)
            return 0;
        var density = MassKg / VolumeM3;
        var saturation = fluid.SaturationAtTemperature(TemperatureK);
        return density >= saturation.VapourDensityKgPerM3
            ? saturation.PressurePa
            : fluid.AtTemperatureDensity(TemperatureK, density).PressurePa;
    }
}
