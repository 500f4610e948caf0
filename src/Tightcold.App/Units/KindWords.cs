using Tightcold.Quantities;

namespace Tightcold.App.Units;

/// <summary>What a person calls a kind of quantity.</summary>
internal static class KindWords
{
    [Said]
    public static string Of(QuantityKind kind) =>
        kind switch
        {
            QuantityKind.Temperature => "temperature",
            QuantityKind.TemperatureDifference => "temperature difference",
            QuantityKind.AbsolutePressure => "absolute pressure",
            QuantityKind.GaugePressure => "gauge pressure",
            QuantityKind.Vacuum => "vacuum",
            QuantityKind.PressureDifference => "pressure difference",
            QuantityKind.Mass => "mass",
            QuantityKind.LiquidVolume => "amount of liquid",
            QuantityKind.InternalVolume => "volume",
            QuantityKind.Length => "length",
            QuantityKind.Bore => "bore",
            QuantityKind.Altitude => "altitude",
            QuantityKind.Ratio => "share",
            QuantityKind.RelativeHumidity => "relative humidity",
            QuantityKind.Duration => "time span",
            QuantityKind.RotationalSpeed => "speed",
            QuantityKind.VolumeFlow => "flow",
            QuantityKind.LeakRate => "leak rate",
            QuantityKind.GasThroughput => "gas throughput",
            QuantityKind.PressureRise => "pressure rise",
            _ => "number",
        };
}
