using System.Collections.Immutable;
using Tightcold.Diagnosis.Measurement;
using Tightcold.Diagnosis.NextTest;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Quantities;

namespace Tightcold.Findings.Diagnosing;

/// <summary>Next tests in words: what to do, and what each outcome would mean.</summary>
public static class TestWords
{
    public static string Name(TestKind kind) =>
        kind switch
        {
            TestKind.ReadVent => "Thermometer in the centre vent",
            TestKind.ClampSuctionLine => "Clamp the thermometer on the suction line",
            TestKind.ClampLiquidLine => "Clamp the thermometer on the liquid line",
            TestKind.ClampDischargeLine => "Clamp the thermometer on the discharge line",
            TestKind.LookAtGlass => "Look into the sight glass, if there is one",
            TestKind.LookForFrost => "Look for frost at the expansion device, suction line and drier",
            TestKind.WatchClutch => "Watch the clutch for three minutes",
            TestKind.FanOnCondenser => "Blow a shop fan at the condenser and read both gauges again",
            TestKind.MistOnCondenser => "Mist the condenser with water and read both gauges again",
            TestKind.RaiseSpeed => "Hold a raised engine speed and read both gauges again",
            TestKind.BlowerLow => "Blower to low, then gauges and vent again",
            TestKind.BlockCondenser =>
                "Cardboard before the condenser while watching the high side; off again by 20 bar (290 psi)",
            TestKind.Recirculate => "Windows shut, recirculated air, then gauges and vent again",
            TestKind.StandingReading => "Stop the engine, let it rest an hour, read both gauges",
            TestKind.PinchHeaterHose => "Pinch off the heater hose or shut its valve and read the vent again",
            TestKind.LookAtFan => "Look whether the condenser's fan turns while the compressor runs",
            TestKind.WatchAfterStop => "Switch off and watch both gauges for a minute",
            TestKind.FeelLiquidLine => "Feel along the liquid line, through the drier to the expansion device",
            TestKind.RestTenMinutes => "Once it has turned warm: ten minutes off, then on again",
            TestKind.MeasureClutchVoltage => "Measure voltage at the clutch's plug",
            TestKind.ReadValveDuty => "Read the control valve's duty with a scan tool",
            TestKind.FeelVentAir => "Feel the air at the vents at full blower",
            TestKind.VacuumHold => "Have it recovered, pull it down and watch whether the vacuum holds",
            _ => "Have it recovered and weighed",
        };

    public static NextAction Action(TestValue test, double barometricPa)
    {
        ArgumentNullException.ThrowIfNull(test);
        var (kind, first) = WrittenAs(test.Kind);
        return new(
            Phrase.Words(Name(test.Kind)),
            Tells(test, barometricPa),
            (int)Math.Round(test.Minutes),
            kind,
            test.Kind switch
            {
                TestKind.StandingReading or TestKind.MeasureClutchVoltage or TestKind.ReadValveDuty => Doing.Looks,
                TestKind.RecoverAndWeigh or TestKind.VacuumHold => Doing.TakesOut,
                _ => Doing.RunsCompressor,
            }
        )
        {
            First = first,
            Known = Known(test.Kind),
        };
    }

    /// <summary>The entry that takes a test down, and where to begin in it.</summary>
    public static (string Kind, string? First) WrittenAs(TestKind kind) =>
        kind switch
        {
            TestKind.StandingReading => (EntryKinds.StandingReading, null),
            TestKind.RecoverAndWeigh or TestKind.VacuumHold => (EntryKinds.Recovery, null),
            TestKind.PinchHeaterHose => (EntryKinds.Sign, SignWords.HeaterHose),
            TestKind.LookAtFan => (EntryKinds.Sign, SignWords.Fan),
            TestKind.WatchAfterStop => (EntryKinds.Sign, SignWords.AfterStop),
            TestKind.FeelLiquidLine => (EntryKinds.Sign, SignWords.LiquidLine),
            TestKind.RestTenMinutes => (EntryKinds.Sign, SignWords.AfterRest),
            TestKind.MeasureClutchVoltage => (EntryKinds.Sign, SignWords.Voltage),
            TestKind.ReadValveDuty => (EntryKinds.Sign, SignWords.ControlValve),
            TestKind.FeelVentAir => (EntryKinds.Sign, SignWords.VentAir),
            TestKind.ReadVent => (EntryKinds.RunningReading, FieldNames.VentTemperature),
            TestKind.ClampSuctionLine => (EntryKinds.RunningReading, FieldNames.SuctionLineTemperature),
            TestKind.ClampLiquidLine => (EntryKinds.RunningReading, FieldNames.LiquidLineTemperature),
            TestKind.ClampDischargeLine => (EntryKinds.RunningReading, FieldNames.DischargeLineTemperature),
            TestKind.LookAtGlass => (EntryKinds.RunningReading, FieldNames.SightGlass),
            TestKind.LookForFrost => (EntryKinds.RunningReading, "frost"),
            TestKind.WatchClutch => (EntryKinds.RunningReading, "clutch"),
            TestKind.RaiseSpeed => (EntryKinds.RunningReading, FieldNames.EngineSpeed),
            _ => (EntryKinds.RunningReading, null),
        };

    private static ImmutableArray<(string Field, string Text)> Known(TestKind kind) =>
        kind switch
        {
            TestKind.FanOnCondenser => [("aid", "fan on condenser")],
            TestKind.MistOnCondenser => [("aid", "water mist")],
            TestKind.BlockCondenser => [("aid", "blocked airflow")],
            TestKind.BlowerLow => [("blower", "low"), ("aid", "none")],
            TestKind.RaiseSpeed => [("aid", "none")],
            TestKind.Recirculate => [(FieldNames.AirSource, "recirculated"), ("doors", "closed"), ("aid", "none")],
            _ => [],
        };

    /// <summary>“high side near 14 bar: condenser short of air (then 90 %); near 19 bar: too much refrigerant (then 80
    /// %)”.</summary>
    private static Phrase Tells(TestValue test, double barometricPa)
    {
        var told = Phrase.Empty;
        foreach (var meaning in test.Meanings)
        {
            var name = FaultWords.Name(meaning.Hypothesis);
            var then = Measure.Ratio(Math.Clamp(meaning.OddsThen, 0.01, 0.99));
            var one = Expected(test.Kind, meaning, barometricPa) is { } expected
                ? Phrase.Of($"{expected} if it is {name} (then about {then});")
                : Phrase.Of($"{name}: about {then} if it is so;");
            told = told.Then(one);
        }

        return told.IsEmpty
            ? Phrase.Words("which of the rest it is")
            : Phrase.FromParts([.. told.Parts.Take(told.Parts.Length - 1), Trimmed(told.Parts[^1])]);
    }

    private static PhrasePart Trimmed(PhrasePart last) =>
        last is PhrasePart.Words words ? new PhrasePart.Words(words.Text.TrimEnd(';')) : last;

    private static Phrase? Expected(TestKind kind, TestMeaning meaning, double barometricPa)
    {
        var (low, high) = (meaning.Expected.Low, meaning.Expected.High);
        if (high == 0)
            return null;
        return (kind, meaning.Channel) switch
        {
            (TestKind.RecoverAndWeigh, _) => Phrase.Of($"{(Measure.Kilograms(low), Measure.Kilograms(high))}"),
            (TestKind.StandingReading, _) => Phrase.Of(
                $"{(ReadingWords.Value(Channel.LowSide, low, barometricPa), ReadingWords.Value(Channel.LowSide, high, barometricPa))}"
            ),
            (_, { } channel) => Phrase.Of(
                $"{ReadingWords.Name(channel)} {(ReadingWords.Value(channel, low, barometricPa), ReadingWords.Value(channel, high, barometricPa))}"
            ),
            _ => null,
        };
    }
}
