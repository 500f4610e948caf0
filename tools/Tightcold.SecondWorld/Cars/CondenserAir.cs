namespace Tightcold.SecondWorld.Cars;

/// <summary>
/// Air through the condenser of a standing car: fan curve against core resistance, both square laws; a fan that stands
/// is one more resistance; a shop fan in front pushes through the same core with a pressure of its own.
/// </summary>
public static class CondenserAir
{
    private const double DraughtPa = 3;
    private const double AidPa = 55;
    private const double AidFreeM3PerS = 1.1;
    private const double DeadFanResistance = 0.5;
    private const double AirDensity = 1.15;
    private const double NominalFanRpm = 1500;

    public readonly record struct Result(double M3PerS, double KgPerS, double HotReturn);

    public static Result Through(CarBuild car, Condition condition, Setup setup, double condensingPa)
    {
        var drive = condition.FanPressureFactor;
        if (car.EngineDrivenFan)
            drive *= Math.Pow(Math.Min(setup.EngineRpm, 2500) / NominalFanRpm, 2);
        else
            drive *= Speed(car, condensingPa);
        if (condition.FanDead)
            drive = 0;
        var resistance = car.CorePaPerM6S2 * condition.CoreResistanceFactor;
        var own = car.FanPressurePa / (car.FanFreeM3PerS * car.FanFreeM3PerS);
        var pressure = DraughtPa + drive * car.FanPressurePa;
        var square = resistance + (condition.FanDead ? DeadFanResistance * own : own);
        if (setup.FanAid)
        {
            pressure += AidPa;
            square += AidPa / (AidFreeM3PerS * AidFreeM3PerS);
        }
        var flow = Math.Sqrt(pressure / square);
        // Where nothing drives it, air wanders back round the core; a fan in front ends that.
        var back =
            car.HotReturnIdle * (1 + (condition.FanDead ? 0.7 : 0) + 0.25 * Math.Log(condition.CoreResistanceFactor));
        if (setup.FanAid)
            back *= 0.3;
        return new(flow, flow * AirDensity, Math.Min(back, 0.5));
    }

    private static double Speed(CarBuild car, double condensingPa)
    {
        var share = Math.Clamp((condensingPa - car.SecondFanOnPa) / 1.5e5, 0, 1);
        return car.FirstFanShare + (1 - car.FirstFanShare) * share;
    }
}
