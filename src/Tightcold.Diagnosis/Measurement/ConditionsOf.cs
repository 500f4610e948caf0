using Tightcold.Diagnosis.Priors;
using Tightcold.Loop;

namespace Tightcold.Diagnosis.Measurement;

/// <summary>The loop model's conditions at one way of running, with what is not known about the day and the car's
/// front end drawn by the coordinates. Figures assumed; docs/physics/diagnosis.md.</summary>
internal static class ConditionsOf
{
    // Above this the pump of hot air round the radiator is weaker, turns a minute.
    private const double RaisedRpm = 1200;

    // Wet mist takes the air this share of the way to its wet bulb.
    private const double MistShare = 0.6;

    public static LoopConditions Of(OperatingPoint point, ReadOnlySpan<double> z)
    {
        var ambient = Clamp(point.AmbientK + (point.AmbientSigmaK * z[Coordinate.Ambient]), LoopLimits.MinAmbientK, LoopLimits.MaxAmbientK);
        var humidity = Clamp(point.RelativeHumidity + (point.HumiditySigma * z[Coordinate.Humidity]), 0.02, 1);
        var rpm = Clamp(point.EngineRpm * Math.Exp(point.EngineSigma * z[Coordinate.EngineSpeed]), LoopLimits.MinEngineRpm, LoopLimits.MaxEngineRpm);
        var (face, faceSpread, reentry, reentrySigma) = Front(point);
        var cabin = Clamp((point.CabinK ?? ambient) + (point.CabinSigmaK * z[Coordinate.Cabin]), LoopLimits.MinCabinK, LoopLimits.MaxCabinK);
        // The same water in cooler cabin air is a higher relative humidity; dried on the coil, hardly above 60 %.
        var conditions = new LoopConditions
        {
            AmbientK = ambient,
            RelativeHumidity = humidity,
            BarometricPa = Clamp(point.BarometricPa, LoopLimits.MinBarometricPa, LoopLimits.MaxBarometricPa),
            EngineRpm = rpm,
            CondenserFaceMPerS = Clamp(face * Math.Exp(faceSpread * z[Coordinate.FaceSpeed]), LoopLimits.MinCondenserFaceMPerS, LoopLimits.MaxCondenserFaceMPerS),
            ReentryK = Clamp(reentry + (reentrySigma * z[Coordinate.Reentry]), 0, LoopLimits.MaxReentryK),
            BlowerShare = Clamp(point.BlowerShare, LoopLimits.MinBlowerShare, 1),
            FreshShare = Clamp(point.FreshShare, 0, 1),
            CabinK = cabin,
            CabinRelativeHumidity = point.CabinK is null ? humidity : Math.Min(humidity, 0.6),
        };
        return point.Aid == Aid.Mist ? Misted(conditions, ambient, humidity) : conditions;
    }

    /// <summary>Mist cools the condenser's air alone: the model's ambient becomes that air, and the cabin's intake is
    /// handed over as cabin air, which the model takes whole when nothing fresh is mixed in.</summary>
    private static LoopConditions Misted(LoopConditions dry, double ambientK, double humidity)
    {
        var wetBulb = WetBulbK(ambientK, humidity);
        var cooled = Math.Max(LoopLimits.MinAmbientK, ambientK - (MistShare * (ambientK - wetBulb)));
        var fresh = dry.FreshShare >= 0.5;
        return dry with
        {
            AmbientK = cooled,
            FreshShare = 0,
            CabinK = fresh ? Clamp(ambientK, LoopLimits.MinCabinK, LoopLimits.MaxCabinK) : dry.CabinK,
            CabinRelativeHumidity = fresh ? humidity : dry.CabinRelativeHumidity,
        };
    }

    /// <summary>Wet bulb from humidity by the arctangent fit of Stull (2011), J. Appl. Meteorol. Climatol. 50, 2267:
    /// within 1 K from -20 to 50 °C above 5 % humidity; more than this use needs.</summary>
    public static double WetBulbK(double airK, double humidity)
    {
        double t = airK - 273.15, rh = Math.Max(5, humidity * 100);
        return 273.15 + (t * Math.Atan(0.151977 * Math.Sqrt(rh + 8.313659))) + Math.Atan(t + rh) - Math.Atan(rh - 1.676331)
            + (0.00391838 * Math.Pow(rh, 1.5) * Math.Atan(0.023101 * rh)) - 4.686035;
    }

    private static (double Face, double Spread, double Reentry, double ReentrySigma) Front(OperatingPoint point) => point.Aid switch
    {
        Aid.Fan => (3.0, 0.15, 2, 1),
        Aid.Blocked => (0.6, 0.3, 10, 4),
        _ => point.EngineRpm < RaisedRpm ? (1.6, 0.25, 7, 3) : (2.0, 0.25, 5, 2.5),
    };

    private static double Clamp(double value, double least, double most) => Math.Min(most, Math.Max(least, value));
}
