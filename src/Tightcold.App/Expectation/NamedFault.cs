using System.Collections.Immutable;
using Tightcold.Loop.Faults;

namespace Tightcold.App.Expectation;

/// <summary>A fault a person can ask about, in the trade's words.</summary>
/// <param name="Key">Name on the command line and in files.</param>
/// <param name="Name">What a person reads.</param>
/// <param name="UsualSeverity">Severity if none is given, 0 to 1.</param>
/// <param name="Apply">Adds it, at a severity of 0 to 1, to faults and share of the charge.</param>
public sealed record NamedFault(
    string Key,
    string Name,
    double UsualSeverity,
    Func<LoopFaults, double, LoopFaults> Apply,
    Func<double, double>? ChargeShare = null
)
{
    public static ImmutableArray<NamedFault> All { get; } =
    [
        new("low-charge", "refrigerant short by that share", 0.5, (f, _) => f, s => 1 - s),
        new("overcharge", "refrigerant over by that share", 0.3, (f, _) => f, s => 1 + s),
        new("air", "air in the circuit (1 is 3 bar when parked)", 0.3, (f, s) => f with { AirExcessPa = 3e5 * s }),
        new("condenser-fan", "condenser air lacking", 0.7, (f, s) => f with { CondenserAirLoss = s }),
        new("dirty-condenser", "condenser fouled", 0.5, (f, s) => f with { CondenserFouling = s }),
        new("weak-blower", "evaporator air lacking", 0.6, (f, s) => f with { EvaporatorAirLoss = s }),
        new("valve-open", "expansion valve stuck open", 1, (f, s) => f with { ValveStuckOpen = s }),
        new("valve-shut", "expansion valve stuck shut or its charge lost", 0.9, (f, s) =>
            f with
            {
                ValveStuckClosed = s,
            }
        ),
        new("plugged-tube", "orifice tube plugged", 0.6, (f, s) => f with { TubePlugged = s }),
        new("blocked-drier", "liquid line or drier restricted", 0.95, (f, s) => f with { LiquidLineRestriction = s }),
        new("moisture", "water freezing in the throttle", 0.8, (f, s) => f with { MoistureIce = s }),
        new("worn-compressor", "compressor worn", 0.6, (f, s) => f with { CompressorWear = s }),
        new("slipping-clutch", "clutch or belt slipping; 1 does not pull", 0.5, (f, s) => f with { ClutchSlip = s }),
        new("control-low", "stroke or speed stuck low", 1, (f, s) => f with { ControlStuckLow = s }),
        new("control-high", "stroke or speed stuck high", 1, (f, s) => f with { ControlStuckHigh = s }),
        new("blend-door", "warm air past the blend door", 0.2, (f, s) => f with { BlendDoorLeak = s }),
        new("too-much-oil", "oil over (1 is 300 g)", 0.5, (f, s) => f with { ExcessOilKg = 0.3 * s }),
        new("switch-high", "cycling switch set too high (1 is 1.5 bar)", 0.4, (f, s) =>
            f with
            {
                SwitchOffsetPa = 1.5e5 * s,
            }
        ),
        new("switch-low", "cycling switch set too low (1 is 1.5 bar)", 0.5, (f, s) =>
            f with
            {
                SwitchOffsetPa = -1.5e5 * s,
            }
        ),
    ];

    public static NamedFault? Find(string key) =>
        All.FirstOrDefault(fault => string.Equals(fault.Key, key, StringComparison.OrdinalIgnoreCase));
}
