using Tightcold.Diagnosis.Priors;
using Tightcold.Procedures.Substances;
using Tightcold.Quantities;

namespace Tightcold.Findings.Diagnosing;

/// <summary>Faults in the trade's words: name, how bad, what to do, what can hurt in doing it. Common
/// practice.</summary>
public static class FaultWords
{
    public static string Name(Hypothesis hypothesis)
    {
        ArgumentNullException.ThrowIfNull(hypothesis);
        return hypothesis.IsNothingWrong ? "nothing wrong"
            : hypothesis.IsNoneOfThese ? "none of these faults"
            : string.Join(" with ", hypothesis.Faults.Select(Name));
    }

    public static string Name(Fault fault) =>
        fault switch
        {
            Fault.Undercharge => "too little refrigerant",
            Fault.Overcharge => "too much refrigerant",
            Fault.AirInside => "air in the system",
            Fault.CondenserAir => "condenser short of air or dirty",
            Fault.EvaporatorAir => "too little air over the evaporator",
            Fault.ValveStuckOpen => "expansion valve stuck open",
            Fault.ValveStuckClosed => "expansion valve stuck towards closed",
            Fault.TubePlugged => "orifice tube plugged",
            Fault.LineRestricted => "restriction in liquid line or drier",
            Fault.MoistureIce => "water freezing in the expansion device",
            Fault.CompressorWorn => "worn compressor",
            Fault.ClutchSlips => "slipping clutch or belt",
            Fault.ClutchDead => "compressor not turning",
            Fault.ControlStuckLow => "compressor control stuck at small stroke",
            Fault.ControlStuckHigh => "compressor control stuck at full stroke",
            Fault.BlendDoorLeaks => "warm air from the heater (blend door, heater valve)",
            Fault.OilExcess => "too much oil",
            Fault.NoVoltage => "no voltage at the compressor's clutch",
            Fault.ControlNotAsked => "compressor's control valve not commanded",
            Fault.TubeOversized => "orifice tube too large or missing",
            Fault.WrongRefrigerant => "another refrigerant than the label's",
            _ => "cycling switch or fin thermostat off its point",
        };

    /// <summary>The fault's own measure in words.</summary>
    public static Phrase Severity(Fault fault, double low, double high) =>
        fault switch
        {
            Fault.AirInside => Phrase.Of(
                $"{(new Measure(QuantityKind.PressureDifference, low), new Measure(QuantityKind.PressureDifference, high))} of air at rest"
            ),
            Fault.OilExcess => Phrase.Of($"{(Measure.Kilograms(low), Measure.Kilograms(high))} of oil too much"),
            Fault.SwitchMisset => Phrase.Of(
                $"off by {(new Measure(QuantityKind.PressureDifference, low), new Measure(QuantityKind.PressureDifference, high))}"
            ),
            Fault.CondenserAir => Phrase.Of($"{(Measure.Ratio(low), Measure.Ratio(high))} of its air or fins lost"),
            Fault.EvaporatorAir => Phrase.Of($"{(Measure.Ratio(low), Measure.Ratio(high))} of its air lost"),
            Fault.TubePlugged or Fault.LineRestricted => Phrase.Of(
                $"{(Measure.Ratio(low), Measure.Ratio(high))} of the opening closed"
            ),
            Fault.BlendDoorLeaks => Phrase.Of(
                $"{(Measure.Ratio(low), Measure.Ratio(high))} of the vent air goes through the heater"
            ),
            Fault.ClutchSlips => Phrase.Of($"{(Measure.Ratio(low), Measure.Ratio(high))} of the turns lost"),
            Fault.Undercharge or Fault.Overcharge or Fault.ClutchDead or Fault.NoVoltage or Fault.WrongRefrigerant =>
                Phrase.Empty,
            _ => Phrase.Of($"{(Measure.Ratio(low), Measure.Ratio(high))} of the way to the worst"),
        };

    /// <summary>What to do when this is it.</summary>
    public static NextAction Mend(Hypothesis hypothesis)
    {
        ArgumentNullException.ThrowIfNull(hypothesis);
        var (what, tells, minutes, kind) = hypothesis.Faults.IsEmpty
            ? (
                "Leave the circuit shut; look again on a hotter day and after a long drive",
                "whether the complaint comes back under load",
                15,
                (string?)Jobs.Entries.EntryKinds.VentReading
            )
            : Of(hypothesis.Faults[0]);
        return new(Phrase.Words(what), Phrase.Words(tells), minutes, kind);
    }

    /// <summary>What can hurt in acting on it.</summary>
    public static IEnumerable<Caution> Cautions(Hypothesis hypothesis)
    {
        ArgumentNullException.ThrowIfNull(hypothesis);
        return hypothesis
            .Faults.Select(fault => (Fault: fault, Says: Caution(fault)))
            .Where(caution => caution.Says.Length > 0)
            .Select(caution => new Caution(
                "fault: " + caution.Says,
                Severity(caution.Fault),
                Phrase.Words(caution.Says),
                "common practice"
            ));
    }

    private static Danger Severity(Fault fault) =>
        fault switch
        {
            Fault.Overcharge or Fault.AirInside or Fault.CondenserAir or Fault.NoVoltage or Fault.WrongRefrigerant =>
                Danger.Life,
            Fault.ClutchSlips or Fault.ClutchDead => Danger.Hurts,
            _ => Danger.Spoils,
        };

    private static (string, string, int, string?) Of(Fault fault) =>
        fault switch
        {
            Fault.Undercharge => (
                "Search the leak, then recover, mend, evacuate and fill by weight",
                "where it went; topping up loses it again",
                30,
                Jobs.Entries.EntryKinds.LeakCheck
            ),
            Fault.Overcharge => (
                "Have it recovered and weighed, then filled to the label",
                "how much was too much",
                40,
                Jobs.Entries.EntryKinds.Recovery
            ),
            Fault.AirInside => (
                "Have it recovered, evacuate long and fill by weight with fresh refrigerant",
                "whether the pressures come down",
                60,
                Jobs.Entries.EntryKinds.Recovery
            ),
            Fault.CondenserAir => (
                "Check that the fan runs, clear and wash the condenser's face, then read again",
                "whether the high side falls",
                20,
                Jobs.Entries.EntryKinds.RunningReading
            ),
            Fault.EvaporatorAir => (
                "Look at cabin filter, blower and the core for ice, then read again",
                "whether air and low side come up",
                15,
                Jobs.Entries.EntryKinds.RunningReading
            ),
            Fault.ValveStuckOpen or Fault.ValveStuckClosed => (
                "Warm and cool the valve's bulb while watching the low side; a valve that does not follow is replaced",
                "whether the valve still regulates",
                20,
                Jobs.Entries.EntryKinds.PartChanged
            ),
            Fault.TubePlugged => (
                "Recover, pull the orifice tube and look at its screen",
                "grit tells of the compressor, sludge of the drier",
                60,
                Jobs.Entries.EntryKinds.PartChanged
            ),
            Fault.LineRestricted => (
                "Feel along the liquid line and drier for a step in temperature",
                "where the restriction sits",
                10,
                Jobs.Entries.EntryKinds.RunningReading
            ),
            Fault.MoistureIce => (
                "Let it stand warm, then watch whether it comes back after a quarter of an hour; if so recover, change the drier, evacuate long",
                "ice that comes and goes is water",
                40,
                Jobs.Entries.EntryKinds.RunningReading
            ),
            Fault.CompressorWorn => (
                "Read at idle and raised speed once more before spending on a compressor",
                "a worn one barely moves the gauges apart at idle",
                10,
                Jobs.Entries.EntryKinds.RunningReading
            ),
            Fault.ClutchSlips or Fault.ClutchDead => (
                "Look at the clutch: does the hub turn, is there voltage at the coil, is the gap right?",
                "electrical or mechanical",
                15,
                Jobs.Entries.EntryKinds.Note
            ),
            Fault.ControlStuckLow or Fault.ControlStuckHigh => (
                "Check the control valve's signal and resistance before changing it",
                "wiring, valve or compressor",
                20,
                Jobs.Entries.EntryKinds.Note
            ),
            Fault.BlendDoorLeaks => (
                "Pinch off the heater hose or shut its valve and read the vent again",
                "whether the heater warms the air",
                10,
                Jobs.Entries.EntryKinds.RunningReading
            ),
            Fault.NoVoltage => (
                "Measure voltage at the clutch's plug, then pressure at the sensor or switch, fuse, relay; bridge nothing",
                "whether it is the wiring, the sensor or the engine computer",
                15,
                Jobs.Entries.EntryKinds.Note
            ),
            Fault.ControlNotAsked => (
                "Read the control valve's duty and what forbids it with a scan tool",
                "whether the valve is asked at all",
                15,
                Jobs.Entries.EntryKinds.Note
            ),
            Fault.TubeOversized => (
                "Recover, pull the orifice tube: is it there, is it the right colour, is its seal whole?",
                "whether the right tube is in",
                60,
                Jobs.Entries.EntryKinds.PartChanged
            ),
            Fault.WrongRefrigerant => (
                "Have it identified before anything is connected to a recovery machine",
                "what is in it",
                15,
                Jobs.Entries.EntryKinds.StandingReading
            ),
            Fault.OilExcess => (
                "Think over the oil put in at earlier repairs; only draining and measuring tells",
                "how much is in",
                60,
                Jobs.Entries.EntryKinds.OilMoved
            ),
            _ => (
                "Compare the pressures at which it cuts out and in with the maker's figures",
                "whether the switch is off",
                10,
                Jobs.Entries.EntryKinds.RunningReading
            ),
        };

    private static string Caution(Fault fault) =>
        fault switch
        {
            Fault.Undercharge =>
                "Do not fill up by the gauges: over a wide range of charge they do not move, and too much is next.",
            Fault.Overcharge or Fault.AirInside =>
                "High side may near its relief: stop the engine above about 28 bar (400 psi); never vent it, recover it.",
            Fault.CondenserAir =>
                "The fan may start by itself; the high side climbs fast without air: stop the engine above about 28 bar (400 psi).",
            Fault.ValveStuckOpen => "Liquid comes back to the compressor: do not run it long.",
            Fault.TubePlugged or Fault.LineRestricted or Fault.ValveStuckClosed =>
                "Do not add refrigerant to lift a low side that a restriction holds down: the surplus stands in the condenser.",
            Fault.CompressorWorn =>
                "A compressor that sheds metal ruins its successor: look for grit before fitting a new one.",
            Fault.NoVoltage =>
                "A bridged pressure switch lets the compressor run empty or past its relief: bridge none. "
                    + "An electric compressor carries high voltage: leave it to the trained.",
            Fault.WrongRefrigerant => "It may burn: no flame, no spark, and never into your own cylinder.",
            Fault.ClutchSlips or Fault.ClutchDead =>
                "Hands and cables clear of the belt; a slipping clutch is hot enough to burn.",
            _ => "",
        };
}
