using System.Collections.Immutable;
using Tightcold.Diagnosis.Measurement;
using Tightcold.Diagnosis.Priors;
using Tightcold.Jobs.Entries;
using Tightcold.Picture.Machine;
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
    /// <param name="seen">What was looked at already: then the next thing, not the same again.</param>
    public static NextAction Mend(Hypothesis hypothesis, ImmutableArray<Sign> seen)
    {
        ArgumentNullException.ThrowIfNull(hypothesis);
        if (hypothesis.Faults.IsEmpty)
            return new(
                Phrase.Words("Leave the circuit shut; look again on a hotter day and after a long drive"),
                Phrase.Words("whether the complaint comes back under load"),
                15,
                EntryKinds.VentReading
            );
        if (Proof(hypothesis.Faults[0]) is not { } proof)
        {
            var (what, tells, minutes, kind) = Of(hypothesis.Faults[0]);
            return new(Phrase.Words(what), Phrase.Words(tells), minutes, kind);
        }

        var looked = seen.Any(sign => SignWords.GroupOf(SeenSigns.Word(sign))?.Name == proof.Group);
        return looked
            ? new(
                Phrase.Words(proof.Then),
                Phrase.Words("whether it cools as it should"),
                30,
                proof.Opens ? EntryKinds.Recovery : EntryKinds.RunningReading,
                proof.Opens ? Doing.TakesOut : Doing.Looks
            )
            : new(Phrase.Words(proof.What), Phrase.Words(proof.Tells), proof.Minutes, EntryKinds.Sign)
            {
                First = proof.Group,
            };
    }

    /// <param name="Then">What to do once it was looked at.</param>
    /// <param name="Opens">That begins with a recovery.</param>
    private sealed record Look(
        string What,
        string Tells,
        int Minutes,
        string Group,
        string Then,
        bool Opens = false
    );

    /// <summary>Faults that a look of some minutes proves before anything is bought; null for others.</summary>
    private static Look? Proof(Fault fault) =>
        fault switch
        {
            Fault.LineRestricted => new(
                "Feel along the liquid line and drier for a step in temperature",
                "where the restriction sits",
                10,
                SignWords.LiquidLine,
                "Recover, change the drier and what is kinked or blocked, evacuate, fill by weight",
                Opens: true
            ),
            Fault.MoistureIce => new(
                "Once it has turned warm: ten minutes off, then on again",
                "ice that comes and goes is water",
                15,
                SignWords.AfterRest,
                "Recover, change the drier, evacuate long, fill by weight",
                Opens: true
            ),
            Fault.ClutchSlips or Fault.ClutchDead => new(
                "Look at belt and clutch: does the hub turn, does the belt slip?",
                "electrical or mechanical",
                10,
                SignWords.Belt,
                "Set right what it is: belt, gap, coil or compressor; then read both gauges again"
            ),
            Fault.ControlStuckLow or Fault.ControlStuckHigh => new(
                "Read the control valve's duty with a scan tool before changing it",
                "wiring, valve or compressor",
                15,
                SignWords.ControlValve,
                "Measure the control valve's coil and plug; change the valve, the compressor only if that does nothing"
            ),
            Fault.BlendDoorLeaks => new(
                "Pinch off the heater hose or shut its valve and read the vent again",
                "whether the heater warms the air",
                10,
                SignWords.HeaterHose,
                "Set right the blend door, its motor or the heater valve; the circuit stays shut"
            ),
            Fault.NoVoltage => new(
                "Measure voltage at the clutch's plug",
                "whether wiring, sensor or engine computer keep it off, or the clutch itself",
                10,
                SignWords.Voltage,
                "Follow the voltage back: fuse, relay, wire, pressure switch or sensor, fault codes; bridge nothing"
            ),
            Fault.ControlNotAsked => new(
                "Read the control valve's duty and what forbids it with a scan tool",
                "whether the valve is asked at all",
                15,
                SignWords.ControlValve,
                "Find what forbids it: fault codes, pressure sensor, evaporator sensor, wiring to the valve"
            ),
            _ => null,
        };

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
                EntryKinds.LeakCheck
            ),
            Fault.Overcharge => (
                "Have it recovered and weighed, then filled to the label",
                "how much was too much",
                40,
                EntryKinds.Recovery
            ),
            Fault.AirInside => (
                "Have it recovered, evacuate long and fill by weight with fresh refrigerant",
                "whether the pressures come down",
                60,
                EntryKinds.Recovery
            ),
            Fault.CondenserAir => (
                "Check that the fan runs, clear and wash the condenser's face, then read again",
                "whether the high side falls",
                20,
                EntryKinds.RunningReading
            ),
            Fault.EvaporatorAir => (
                "Look at cabin filter, blower and the core for ice, then read again",
                "whether air and low side come up",
                15,
                EntryKinds.RunningReading
            ),
            Fault.ValveStuckOpen or Fault.ValveStuckClosed => (
                "Warm and cool the valve's bulb while watching the low side; a valve that does not follow is replaced",
                "whether the valve still regulates",
                20,
                EntryKinds.PartChanged
            ),
            Fault.TubePlugged => (
                "Recover, pull the orifice tube and look at its screen",
                "grit tells of the compressor, sludge of the drier",
                60,
                EntryKinds.PartChanged
            ),
            Fault.CompressorWorn => (
                "Read at idle and raised speed once more before spending on a compressor",
                "a worn one barely moves the gauges apart at idle",
                10,
                EntryKinds.RunningReading
            ),
            Fault.TubeOversized => (
                "Recover, pull the orifice tube: is it there, is it the right colour, is its seal whole?",
                "whether the right tube is in",
                60,
                EntryKinds.PartChanged
            ),
            Fault.WrongRefrigerant => (
                "Have it identified before anything is connected to a recovery machine",
                "what is in it",
                15,
                EntryKinds.StandingReading
            ),
            Fault.OilExcess => (
                "Think over the oil put in at earlier repairs; only draining and measuring tells",
                "how much is in",
                60,
                EntryKinds.OilMoved
            ),
            _ => (
                "Compare the pressures at which it cuts out and in with the maker's figures",
                "whether the switch is off",
                10,
                EntryKinds.RunningReading
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
