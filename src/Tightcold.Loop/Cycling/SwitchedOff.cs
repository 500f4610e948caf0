using Tightcold.Loop.Designs;
using Tightcold.Loop.Evaporator;
using Tightcold.Loop.Faults;
using Tightcold.Loop.Results;
using Tightcold.Loop.Solving;
using Tightcold.Numerics.Smoothing;

namespace Tightcold.Loop.Cycling;

/// <summary>The circuit at rest: why, how surely, and what is then read.</summary>
internal static class SwitchedOff
{
    // Range of turns, and of standing pressure, over which running goes over into rest.
    private const double FadeRpm = 350;
    private const double FadePa = 0.3e5;

    /// <summary>1 where the compressor rests for lack of turns or of pressure, 0 where it runs.</summary>
    public static double Weight(in LoopCase c, LoopConditions conditions, LoopFaults faults)
    {
        var standing = c.StaticPa + (faults.AirExcessPa * conditions.AmbientK / 298.15);
        var least =
            c.Kind == CompressorKind.FixedCycling
                ? c.Design.LowSwitchOnPa + faults.SwitchOffsetPa
                : c.Design.ChargeSwitchPa;
        var lackOfPressure = conditions.LowSwitchBridged ? 0 : Smooth.Step(0.5 + ((least - standing) / FadePa));
        var full =
            c.Kind == CompressorKind.Electric ? c.Design.ElectricMaxRpm : conditions.EngineRpm * c.Design.PulleyRatio;
        var lackOfTurns = 1 - Smooth.Step(((full * (1 - faults.ClutchSlip)) - LoopCaseBuilder.LeastRpm) / FadeRpm);
        return 1 - ((1 - lackOfPressure) * (1 - lackOfTurns));
    }

    // From here on a compressor that turns moves next to nothing: both sides drift to the parked pressure.
    private const double HardlyPumps = 0.90;

    /// <summary>1 where the compressor turns and pumps nothing.</summary>
    public static double NothingPumped(LoopFaults faults) =>
        Smooth.Step((faults.CompressorWear - HardlyPumps) / (1 - HardlyPumps));

    /// <summary>
    /// 1 where the parked circuit's pressure is three fifths air or more, 0 below half: the swept-up air then fills the
    /// condenser and the laws of this model mean nothing.
    /// </summary>
    public static double AirWeight(in LoopCase c, LoopConditions conditions, LoopFaults faults) =>
        Smooth.Step(((faults.AirExcessPa * conditions.AmbientK / 298.15 / c.StaticPa) - 1) / 0.5);

    public static LoopReadings Readings(in LoopCase c, LoopConditions conditions, LoopFaults faults)
    {
        var standing = c.StaticPa + (faults.AirExcessPa * conditions.AmbientK / 298.15);
        var saturated = c.Table.SaturationTemperatureK(c.StaticPa);
        var air = c.Coil.AirInK;
        var ambient = conditions.AmbientK;
        return new LoopReadings
        {
            LowSidePa = standing,
            LowSideMinPa = standing,
            LowSideMaxPa = standing,
            LowSideRunningPa = standing,
            HighSideRunningPa = standing,
            HighSidePa = standing,
            HighSideMinPa = standing,
            HighSideMaxPa = standing,
            EvaporatorOutK = ambient,
            SuctionLineK = ambient,
            DischargeLineK = ambient,
            LiquidLineK = ambient,
            ThrottleInletK = ambient,
            EvaporatingK = saturated,
            CondensingK = saturated,
            VentK = VentAir.AtK(c, conditions, faults, air),
            FinK = air,
            ApparentSubcoolingK = Math.Max(
                0,
                c.Table.SaturationTemperatureK(Math.Min(standing, c.Table.MaxPressurePa)) - ambient
            ),
            SightGlassQuality = 0,
            SuctionQuality = 1,
        };
    }
}
