using Tightcold.Diagnosis.Priors;
using Tightcold.Loop;
using Tightcold.Loop.Designs;

namespace Tightcold.Diagnosis.Measurement;

/// <summary>The loop model's conditions at one way of running, with what is not known about the day and the car's
/// front end drawn by the coordinates. Figures assumed; docs/physics/diagnosis.md.</summary>
internal static class ConditionsOf
{
    // Above this the pump of hot air round the radiator is weaker, turns a minute.
    private const double RaisedRpm = 1500;

    // Wet mist takes the air this share of the way to its wet bulb.
    private const double MistShare = 0.6;

    public static LoopConditions Of(OperatingPoint point, ReadOnlySpan<double> z) => Of(point, z, Population.Shipped);

    public static LoopConditions Of(OperatingPoint point, ReadOnlySpan<double> z, Population population)
    {
        var ambient = Clamp(
            point.AmbientK + (point.AmbientSigmaK * z[Coordinate.Ambient]),
            LoopLimits.MinAmbientK,
            LoopLimits.MaxAmbientK
        );
        var humidity = Clamp(point.RelativeHumidity + (point.HumiditySigma * z[Coordinate.Humidity]), 0.02, 1);
        var rpm = Clamp(
            point.EngineRpm * Math.Exp(point.EngineSigma * z[Coordinate.EngineSpeed]),
            LoopLimits.MinEngineRpm,
            LoopLimits.MaxEngineRpm
        );
        var (face, aid, reentry) = Front(point, rpm, z, population);
        var (cabin, cabinHumidity) = Cabin(point, ambient, humidity, z, population);
        var conditions = new LoopConditions
        {
            AmbientK = ambient,
            RelativeHumidity = humidity,
            BarometricPa = Clamp(point.BarometricPa, LoopLimits.MinBarometricPa, LoopLimits.MaxBarometricPa),
            EngineRpm = rpm,
            CondenserFaceMPerS = Clamp(face, LoopLimits.MinCondenserFaceMPerS, LoopLimits.MaxCondenserFaceMPerS),
            AidFaceMPerS = aid,
            LowSwitchBridged = point.SwitchBridged,
            ReentryK = Clamp(reentry, 0, LoopLimits.MaxReentryK),
            BlowerShare = Clamp(point.BlowerShare, LoopLimits.MinBlowerShare, 1),
            FreshShare = Fresh(point, z),
            CabinK = cabin,
            CabinRelativeHumidity = cabinHumidity,
        };
        return point.Aid == Aid.Mist ? Misted(conditions, ambient, humidity) : conditions;
    }

    // Nobody said which air: one or the other, seldom both.
    private static double Fresh(OperatingPoint point, ReadOnlySpan<double> z)
    {
        if (point.IntakeSaid)
            return Clamp(point.FreshShare, 0, 1);
        return 1 / (1 + Math.Exp(-Clamp(EitherOr * z[Coordinate.LineHeat], -40, 40)));
    }

    private const double EitherOr = 3;

    /// <summary>
    /// What the blower takes in on recirculation. Said cabin air is taken as said; else it lies a share of the way from
    /// the outside air to the coil's, by how the cabin is kept. The coil dries it by the same share.
    /// </summary>
    private static (double CabinK, double Humidity) Cabin(
        OperatingPoint point,
        double ambientK,
        double humidity,
        ReadOnlySpan<double> z,
        Population population
    )
    {
        double cabinK;
        if (point.CabinK is { } said)
        {
            cabinK = said + (point.CabinSigmaK * z[Coordinate.Cabin]);
        }
        else
        {
            var trait = population["cabin"];
            var windows = trait.Level * Math.Exp(trait.Spread * z[Coordinate.Cabin]);
            var share = point.Doors switch
            {
                DoorsAre.Open => OpenShare * windows,
                DoorsAre.WindowsOpen => windows,
                DoorsAre.Closed => ClosedShare * windows,
                _ => NotSaidShare * windows,
            };
            cabinK = ambientK - (Math.Min(share, MostCooled) * Math.Max(0, ambientK - CoilAirK));
        }

        cabinK = Clamp(cabinK, LoopLimits.MinCabinK, LoopLimits.MaxCabinK);
        if (point.CabinRelativeHumidity is { } damp)
            return (cabinK, Clamp(damp + (point.HumiditySigma * z[Coordinate.Humidity]), 0.02, 1));
        // Vapour pressure goes the same share of the way to that of the coil's air, which leaves it nearly saturated.
        var way = Clamp((ambientK - cabinK) / Math.Max(1, ambientK - CoilAirK), 0, 1);
        double outside = humidity * SaturationPa(ambientK),
            coil = SaturationPa(CoilAirK);
        var vapour = outside > coil ? outside + (way * (coil - outside)) : outside;
        return (cabinK, Clamp(vapour / SaturationPa(cabinK), 0.02, MostDamp));
    }

    // Air that leaves the coil, and how far a cabin can be brought towards it. Open doors let most of the cooled air
    // go, shut windows keep it: shares of what open windows leave (assumed).
    private const double CoilAirK = 281.15,
        MostCooled = 0.8,
        OpenShare = 0.3,
        ClosedShare = 2.0,
        NotSaidShare = 0.8;
    private const double MostDamp = 0.95;

    // Magnus form, WMO constants.
    private static double SaturationPa(double kelvin) =>
        611.2 * Math.Exp(17.62 * (kelvin - 273.15) / (kelvin - 273.15 + 243.12));

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
        double t = airK - 273.15,
            rh = Math.Max(5, humidity * 100);
        return 273.15
            + (t * Math.Atan(0.151977 * Math.Sqrt(rh + 8.313659)))
            + Math.Atan(t + rh)
            - Math.Atan(rh - 1.676331)
            + (0.00391838 * Math.Pow(rh, 1.5) * Math.Atan(0.023101 * rh))
            - 4.686035;
    }

    // Air of a shop fan before the condenser, m/s, whatever the car's own fan does, with a lognormal spread; a third of
    // the hot air still comes round. Cardboard leaves some air and much of it hot. Assumed.
    private const double AidFace = 2.2,
        AidSpread = 0.25,
        AidReentryShare = 0.35;
    private const double BlockedFace = 0.6,
        BlockedSpread = 0.3,
        BlockedReentryK = 10,
        BlockedReentrySigmaK = 4;

    private const double FullFanAboveK = 308.15,
        MildBandK = 18,
        MostHeld = 0.85;

    // Below this the engine idles, above the second it does not; between, the front end goes over from one to the
    // other.
    private const double IdleRpm = 900;

    private static (double Face, double Aid, double ReentryK) Front(
        OperatingPoint point,
        double rpm,
        ReadOnlySpan<double> z,
        Population population
    )
    {
        var raised = Clamp((rpm - IdleRpm) / (RaisedRpm - IdleRpm), 0, 1);
        double Between(string idle, string other, double score) =>
            population[idle].At(score) + (raised * (population[other].At(score) - population[idle].At(score)));
        // Fans are staged by pressure: one maker's switch brings the fast stage at 17.7 bar and drops it at 14.7, so
        // mild weather sees slow fans, and charts print nearly the same lift over ambient from 20 to 40 °C.
        var mild = Clamp((FullFanAboveK - point.AmbientK) / MildBandK, 0, 1);
        var held = Clamp(population["fan-mild"].At(z[Coordinate.FanStage]), 0, MostHeld);
        var own = Between("face-idle", "face-raised", z[Coordinate.FaceSpeed]) * (1 - (mild * held));
        return point.Aid switch
        {
            Aid.Fan => (
                own,
                AidFace * Math.Exp(AidSpread * z[Coordinate.LineHeat]),
                AidReentryShare * Math.Max(0, Between("reentry-idle", "reentry-raised", z[Coordinate.Reentry]))
            ),
            Aid.Blocked => (
                BlockedFace * Math.Exp(BlockedSpread * z[Coordinate.FaceSpeed]),
                0,
                BlockedReentryK + (BlockedReentrySigmaK * z[Coordinate.Reentry])
            ),
            _ => (own, 0, Between("reentry-idle", "reentry-raised", z[Coordinate.Reentry])),
        };
    }

    private static double Clamp(double value, double least, double most) => Math.Min(most, Math.Max(least, value));
}
