using Tightcold.Quantities;

namespace Tightcold.Jobs.Json;

/// <summary>The unit written beside each stored number, so that a file explains itself.</summary>
public static class SiUnit
{
    public static string Of(QuantityKind kind) =>
        kind switch
        {
            QuantityKind.Temperature => "K",
            QuantityKind.TemperatureDifference => "K difference",
            QuantityKind.AbsolutePressure or QuantityKind.Vacuum => "Pa absolute",
            QuantityKind.GaugePressure => "Pa gauge",
            QuantityKind.PressureDifference => "Pa difference",
            QuantityKind.Mass => "kg",
            QuantityKind.LiquidVolume or QuantityKind.InternalVolume => "m3",
            QuantityKind.Length or QuantityKind.Bore or QuantityKind.Altitude => "m",
            QuantityKind.Ratio or QuantityKind.RelativeHumidity or QuantityKind.Number => "1",
            QuantityKind.Duration => "s",
            QuantityKind.RotationalSpeed => "1/s",
            QuantityKind.VolumeFlow => "m3/s",
            QuantityKind.LeakRate => "kg/s",
            QuantityKind.GasThroughput => "Pa m3/s",
            QuantityKind.PressureRise => "Pa/s",
            _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "no unit is defined for this kind"),
        };
}
