using System.Collections.Immutable;

namespace Tightcold.Diagnosis.Measurement;

/// <summary>Which signs are outcomes of one look.</summary>
public static class SignGroups
{
    /// <summary>Outcomes that exclude each other, in the order in which odds are told.</summary>
    public static ImmutableArray<ImmutableArray<Sign>> All { get; } =
    [
        [Sign.FanRuns, Sign.FanSlow, Sign.FanStopped],
        [Sign.CoolsSteadily, Sign.ComesAndGoes, Sign.WarmAfterTenMinutes, Sign.ColdOnTheRoadOnly],
        [Sign.ColdAgainAfterRest, Sign.WarmStillAfterRest],
        [Sign.SidesEqualAtOnce, Sign.HighFallsFastThenSlowly, Sign.SidesDrawTogetherSlowly],
        [Sign.LowPipeCold, Sign.LowPipeNotCold],
        [Sign.NoStepAlongLiquidLine, Sign.ColdBehindDrier, Sign.ColdBeforeThrottle],
        [Sign.HosePinchedColder, Sign.HosePinchedSame],
        [Sign.AirStrong, Sign.AirWeak],
        [Sign.VentsAlike, Sign.VentsDiffer],
        [Sign.NoHotAirAtInlet, Sign.HotAirAtInlet],
        [Sign.NeedlesSteady, Sign.LowNeedleSwings, Sign.NeedlesShake],
        [Sign.ValveAskedFor, Sign.ValveNotAskedFor],
        [Sign.SensorAgreesWithGauge, Sign.SensorOffTheGauge],
        [Sign.VoltageAtClutch, Sign.NoVoltageAtClutch],
        [Sign.FoamAtLowerRevs, Sign.NoFoamAtLowerRevs],
        [Sign.EngineTemperatureRight, Sign.EngineTooHot],
        [Sign.OilClean, Sign.OilBlack, Sign.MetalInOil],
        [Sign.BeltRight, Sign.BeltSlips, Sign.HubStands],
        [Sign.CondenserClean, Sign.CondenserDirty],
    ];

    /// <summary>The group of a sign.</summary>
    public static ImmutableArray<Sign> Of(Sign sign) => All.First(group => group.Contains(sign));
}
