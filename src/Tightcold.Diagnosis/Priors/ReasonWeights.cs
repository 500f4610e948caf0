namespace Tightcold.Diagnosis.Priors;

/// <summary>
/// What the reason for a reading does to the odds before it: the share of sound cars, and a factor on each fault's
/// weight. Trade practice as stated in docs/physics/diagnosis.md; no workshop's counts.
/// </summary>
internal static class ReasonWeights
{
    /// <summary>Odds of “nothing wrong” before any reading.</summary>
    public static double Sound(ReadingReason reason) =>
        reason switch
        {
            ReadingReason.BroughtInWarm => 0.08,
            ReadingReason.WarmAtIdle => 0.06,
            ReadingReason.WarmAfterTenMinutes => 0.06,
            ReadingReason.CheckUp => 0.85,
            ReadingReason.JustMendedAndWeighed => 0.85,
            ReadingReason.CameBackAfterAWeek => 0.10,
            _ => 0.485,
        };

    /// <summary>Factor on a fault's weight beside the other faults.</summary>
    public static double Factor(ReadingReason reason, Fault fault) =>
        (reason, fault) switch
        {
            (ReadingReason.WarmAtIdle, Fault.CondenserAir) => 5,
            (ReadingReason.WarmAtIdle, Fault.CompressorWorn) => 3,
            (ReadingReason.WarmAtIdle, Fault.Overcharge or Fault.AirInside or Fault.ControlStuckLow) => 1.5,
            (ReadingReason.WarmAtIdle, Fault.Undercharge) => 0.5,
            (ReadingReason.WarmAtIdle, Fault.ClutchDead or Fault.NoVoltage) => 0.1,
            (ReadingReason.WarmAfterTenMinutes, Fault.MoistureIce) => 15,
            (ReadingReason.WarmAfterTenMinutes, Fault.EvaporatorAir) => 5,
            (ReadingReason.WarmAfterTenMinutes, Fault.SwitchMisset or Fault.ControlStuckHigh or Fault.ClutchSlips) => 4,
            (ReadingReason.WarmAfterTenMinutes, Fault.CondenserAir) => 1.5,
            (ReadingReason.WarmAfterTenMinutes, Fault.Undercharge) => 0.4,
            (ReadingReason.WarmAfterTenMinutes, Fault.ClutchDead or Fault.NoVoltage or Fault.BlendDoorLeaks) => 0.2,
            (ReadingReason.CheckUp, Fault.ClutchDead or Fault.NoVoltage) => 0.3,
            (ReadingReason.JustMendedAndWeighed, Fault.Undercharge) => 0.1,
            (ReadingReason.JustMendedAndWeighed, Fault.AirInside or Fault.OilExcess or Fault.Overcharge) => 1.5,
            (ReadingReason.CameBackAfterAWeek, Fault.Undercharge) => 2.5,
            (ReadingReason.CameBackAfterAWeek, Fault.AirInside or Fault.Overcharge or Fault.MoistureIce) => 1.5,
            _ => 1,
        };
}
