using System.Globalization;
using Tightcold.Jobs.Circuit;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Procedures.Cold;
using Tightcold.Properties;

namespace Tightcold.App.Demo;

/// <summary>The lines of the demo's journal, in the order of the day. Every pressure, mass and temperature is
/// computed from <see cref="DemoTruth"/> and then read off an instrument with its own step.</summary>
internal static class DemoStory
{
    private const double MassOnArrivalKg = 0.064;
    private const double MassRecoveredKg = 0.041;
    private const string Joint = "liquid line joint at condenser";
    private const string Valve = "low-side service valve";

    public static IReadOnlyList<DemoEntry> Entries() =>
        [
            .. Arrival(),
            .. FirstSearch(),
            .. RecoveryAndFirstRepair(),
            .. SecondLeak(),
            .. PumpAndHold(),
            .. WeighIn(),
            .. Proof(),
        ];

    private static IEnumerable<DemoEntry> Arrival()
    {
        yield return new(
            0,
            EntryKinds.Weather,
            Fields(
                (FieldNames.AmbientTemperature, "24.0 °C"),
                (FieldNames.RelativeHumidity, "62 %"),
                ("altitude", "640 m"),
                ("wind", "still")
            )
        );
        yield return new(
            2,
            EntryKinds.EarlierCharge,
            Fields((FieldNames.MonthsAgo, "12"), ("filled", "full, not weighed"))
        );
        var standing = DemoTruth.StandingPa(MassOnArrivalKg, 24 + 273.15) - DemoTruth.AirPa;
        yield return new(
            4,
            EntryKinds.StandingReading,
            Fields(
                (FieldNames.LowSide, Bar(standing, 0.1)),
                (FieldNames.HighSide, Bar(standing, 0.5)),
                (FieldNames.AmbientTemperature, "24.0 °C"),
                (FieldNames.CondenserTemperature, "23.8 °C"),
                (FieldNames.CabinTemperature, "24.4 °C"),
                (FieldNames.SinceEngineRan, "11 h")
            )
        );
        // Starved: boils far too low, condenses hardly above the air; suction gas nearly as warm as the cabin air.
        yield return new(
            22,
            EntryKinds.RunningReading,
            Fields(
                (FieldNames.LowSide, Bar(DemoTruth.SaturationPa(-17.5) - DemoTruth.AirPa, 0.1)),
                (FieldNames.HighSide, Bar(DemoTruth.SaturationPa(27.5) - DemoTruth.AirPa, 0.5)),
                (FieldNames.EngineSpeed, "1500 rpm"),
                ("blower", "full"),
                (FieldNames.AirSource, "fresh"),
                ("doors", "open"),
                ("clutch", "on"),
                (FieldNames.AmbientTemperature, "24.6 °C"),
                (FieldNames.RelativeHumidity, "60 %"),
                (FieldNames.VentTemperature, "22.9 °C"),
                (FieldNames.SuctionLineTemperature, "20.5 °C"),
                (FieldNames.LiquidLineTemperature, "26.0 °C")
            )
        );
    }

    private static IEnumerable<DemoEntry> FirstSearch()
    {
        var pressure = Bar(DemoTruth.StandingPa(MassOnArrivalKg, 25 + 273.15) - DemoTruth.AirPa, 0.1);
        yield return new(
            36,
            EntryKinds.LeakCheck,
            Fields(
                ("spot", Joint),
                ("test", "UV lamp"),
                ("outcome", "clear leak"),
                (FieldNames.SystemPressure, pressure),
                (FieldNames.TimeSpent, "6 min"),
                (FieldNames.OldDye, "yes")
            )
        );
        yield return new(
            41,
            EntryKinds.LeakCheck,
            Fields(
                ("spot", "compressor shaft seal"),
                ("test", "electronic detector"),
                ("outcome", "nothing"),
                (FieldNames.SystemPressure, pressure),
                ("wind", "still")
            )
        );
        yield return new(
            43,
            EntryKinds.LeakCheck,
            Fields(
                ("spot", Valve),
                ("test", "electronic detector"),
                ("outcome", "nothing"),
                (FieldNames.SystemPressure, pressure),
                ("wind", "still")
            )
        );
        yield return new(
            46,
            EntryKinds.Note,
            Fields(
                (
                    "text",
                    "Green glow round the condenser joint. The pressure is too low to trust the detector on the rest: "
                        + "search again under nitrogen."
                )
            )
        );
    }

    private static IEnumerable<DemoEntry> RecoveryAndFirstRepair()
    {
        yield return new(
            70,
            EntryKinds.Recovery,
            Fields(
                ("container", "R1"),
                (FieldNames.GrossBefore, "9.420 kg"),
                (FieldNames.GrossAfter, Kilograms(9.420 + MassRecoveredKg)),
                (FieldNames.FinalPressure, "-0.3 bar"),
                ("certificate", "done by a certified colleague, number in the folder")
            )
        );
        yield return new(82, EntryKinds.Opened, Fields(("spot", Joint)));
        yield return new(
            90,
            EntryKinds.SealChanged,
            Fields(
                ("spot", Joint),
                ("seal", "HNBR O-ring, oiled with PAG 46"),
                ("price", "2.40"),
                ("tightening", "two spanners, maker's figure")
            )
        );
        yield return new(
            101,
            EntryKinds.PartChanged,
            Fields(("spot", "receiver-drier"), ("part", "receiver-drier, sealed until fitted"), ("price", "38"))
        );
        yield return new(
            104,
            EntryKinds.OilMoved,
            Fields(
                ("direction", "added"),
                ("amount", "20 mL"),
                (FieldNames.OilType, "PAG 46"),
                ("spot", "receiver-drier")
            )
        );
        yield return new(107, EntryKinds.Closed, Fields(("spot", Joint)));
    }

    private static IEnumerable<DemoEntry> SecondLeak()
    {
        yield return new(
            112,
            EntryKinds.PressureTest,
            Fields(("gas", "dry nitrogen"), ("pressure", "10.0 bar"), (FieldNames.GasTemperature, "27.0 °C"))
        );
        yield return new(
            118,
            EntryKinds.LeakCheck,
            Fields(
                ("spot", Joint),
                ("test", "nitrogen and soap"),
                ("outcome", "nothing"),
                (FieldNames.SystemPressure, "10.0 bar"),
                (FieldNames.TimeSpent, "4 min")
            )
        );
        yield return new(
            124,
            EntryKinds.LeakCheck,
            Fields(
                ("spot", Valve),
                ("test", "nitrogen and soap"),
                ("outcome", "clear leak"),
                (FieldNames.SystemPressure, "10.0 bar"),
                (FieldNames.TimeSpent, "3 min")
            )
        );
        yield return new(
            131,
            EntryKinds.Note,
            Fields(
                (
                    "text",
                    "Fine foam at the low-side valve core under the cap: the second leak. Nitrogen let out, core "
                        + "changed."
                )
            )
        );
        yield return new(
            134,
            EntryKinds.SealChanged,
            Fields(("spot", Valve), ("seal", "valve core and sealing cap"), ("price", "4.10"))
        );
        yield return new(
            139,
            EntryKinds.PressureTest,
            Fields(("gas", "dry nitrogen"), ("pressure", "10.0 bar"), (FieldNames.GasTemperature, "27.5 °C"))
        );
        var minute = 141.0;
        foreach (var spot in CircuitSpots().Where(spot => spot != "evaporator"))
            yield return new(
                minute += 1.5,
                EntryKinds.LeakCheck,
                Fields(
                    ("spot", spot),
                    ("test", "nitrogen and soap"),
                    ("outcome", "nothing"),
                    (FieldNames.SystemPressure, "10.0 bar"),
                    (FieldNames.TimeSpent, "2 min")
                )
            );
        yield return new(
            180,
            EntryKinds.PressureTest,
            Fields(
                ("gas", "dry nitrogen"),
                ("pressure", Bar(DemoTruth.NitrogenGaugePa(10e5, 27.5, 29.5), 0.05)),
                (FieldNames.GasTemperature, "29.5 °C")
            )
        );
    }

    private static IEnumerable<DemoEntry> PumpAndHold()
    {
        yield return new(188, EntryKinds.Pump, Fields(("action", "started"), ("sides", "both sides"), ("cores", "in")));
        foreach (var minutes in new[] { 6, 15, 30, 45 })
            yield return new(
                188 + minutes,
                EntryKinds.VacuumReading,
                Fields(
                    (FieldNames.AbsolutePressure, Mbar(DemoTruth.PumpedPa(minutes * 60))),
                    (FieldNames.PumpValve, "open"),
                    (FieldNames.MeasuredAt, "far port"),
                    (FieldNames.AmbientTemperature, "30.0 °C"),
                    (FieldNames.PartTemperature, "28.5 °C")
                )
            );
        var start = DemoTruth.PumpedPa(45 * 60);
        foreach (
            var (minutes, celsius) in new[]
            {
                (0, "28.5 °C"),
                (8, "28.7 °C"),
                (16, "28.8 °C"),
                (24, "29.0 °C"),
                (32, "29.2 °C"),
            }
        )
            yield return new(
                234 + minutes,
                EntryKinds.VacuumReading,
                Fields(
                    (FieldNames.AbsolutePressure, Mbar(DemoTruth.HeldPa(start, minutes * 60))),
                    (FieldNames.PumpValve, "shut"),
                    (FieldNames.MeasuredAt, "far port"),
                    (FieldNames.AmbientTemperature, "30.0 °C"),
                    (FieldNames.PartTemperature, celsius)
                )
            );
        yield return new(268, EntryKinds.Pump, Fields(("action", "stopped"), ("sides", "both sides"), ("cores", "in")));
    }

    private static IEnumerable<DemoEntry> WeighIn()
    {
        yield return new(
            270,
            EntryKinds.Weather,
            Fields(
                (FieldNames.AmbientTemperature, "31.0 °C"),
                (FieldNames.RelativeHumidity, "44 %"),
                ("altitude", "640 m"),
                ("wind", "breeze")
            )
        );
        var givenByA = 0.300 - DemoTruth.HeelKg(0.300, 31);
        yield return new(
            272,
            EntryKinds.ScaleReading,
            Fields(("container", "Can A"), ("gross", "392 g"), (FieldNames.ContainerTemperature, "29 °C"))
        );
        yield return new(
            273,
            EntryKinds.ContainerMoved,
            Fields(
                ("container", "Can A"),
                ("action", "connected"),
                ("side", "low side"),
                ("position", "upright (vapour)")
            )
        );
        yield return new(
            274,
            EntryKinds.Purge,
            Fields(("hose", "yellow service hose, by the pump"), (FieldNames.EstimatedLoss, "0 g"))
        );
        yield return new(
            275,
            EntryKinds.ContainerMoved,
            Fields(
                ("container", "Can A"),
                ("action", "opened"),
                ("side", "low side"),
                ("position", "upright (vapour)"),
                (FieldNames.BathTemperature, "38 °C")
            )
        );
        yield return new(
            281,
            EntryKinds.ScaleReading,
            Fields(("container", "Can A"), ("gross", "467 g")),
            Tag: "misread"
        );
        yield return new(
            282,
            EntryKinds.ScaleReading,
            Fields(("container", "Can A"), ("gross", Grams(0.392 - 0.165))),
            Corrects: "misread",
            Reason: "the hose pulled on the scale"
        );
        yield return new(
            293,
            EntryKinds.ScaleReading,
            Fields(("container", "Can A"), ("gross", Grams(0.392 - givenByA)))
        );
        yield return new(
            294,
            EntryKinds.ContainerMoved,
            Fields(("container", "Can A"), ("action", "closed"), ("side", "low side"))
        );
        yield return new(
            295,
            EntryKinds.ContainerMoved,
            Fields(("container", "Can A"), ("action", "disconnected"), ("side", "low side"))
        );
        yield return new(
            296,
            EntryKinds.ScaleReading,
            Fields(("container", "Can B"), ("gross", "627 g"), (FieldNames.ContainerTemperature, "29 °C"))
        );
        yield return new(
            297,
            EntryKinds.ContainerMoved,
            Fields(
                ("container", "Can B"),
                ("action", "connected"),
                ("side", "low side"),
                ("position", "upright (vapour)")
            )
        );
        yield return new(
            298,
            EntryKinds.ContainerMoved,
            Fields(
                ("container", "Can B"),
                ("action", "opened"),
                ("side", "low side"),
                ("position", "upright (vapour)"),
                (FieldNames.BathTemperature, "38 °C")
            )
        );
        yield return new(306, EntryKinds.ScaleReading, Fields(("container", "Can B"), ("gross", Grams(0.627 - 0.130))));
        yield return new(
            312,
            EntryKinds.ScaleReading,
            Fields(("container", "Can B"), ("gross", Grams(0.627 - (0.550 + 0.002 - givenByA))))
        );
        yield return new(
            313,
            EntryKinds.ContainerMoved,
            Fields(("container", "Can B"), ("action", "closed"), ("side", "low side"))
        );
    }

    private static IEnumerable<DemoEntry> Proof()
    {
        // Hot start: the car stood in the sun; then a drive on recirculated air. Both from the coil model's middle
        // car: generated, and therefore never called measured in the documents.
        var outside = HumidAir.FromRelativeHumidity(31 + 273.15, 0.44, DemoTruth.AirPa).HumidityRatio;
        var parked = VentBand
            .Of(new(46 + 273.15, 0.8 * outside, 0.5, 31 + 273.15, DemoTruth.AirPa, "full", false, 240), CoilCars.Usual)
            .MedianK;
        yield return new(
            318,
            EntryKinds.VentReading,
            Fields(
                (FieldNames.VentTemperature, Celsius(parked)),
                (FieldNames.AmbientTemperature, "31.0 °C"),
                (FieldNames.RelativeHumidity, "44 %"),
                (FieldNames.CabinTemperature, "46.0 °C"),
                (FieldNames.AirSource, "recirculated"),
                ("blower", "full"),
                (FieldNames.EngineSpeed, "900 rpm"),
                ("moving", "parked in the sun"),
                (FieldNames.SinceStart, "4 min")
            )
        );
        var shade = VentBand
            .Of(new(33 + 273.15, 0.7 * outside, 0.5, 31 + 273.15, DemoTruth.AirPa, "full", true, 540), CoilCars.Usual)
            .MedianK;
        yield return new(
            324,
            EntryKinds.RunningReading,
            Fields(
                (FieldNames.VentTemperature, Celsius(shade)),
                (FieldNames.CabinTemperature, "33.0 °C"),
                (FieldNames.LowSide, Bar(DemoTruth.SaturationPa(3.5) - DemoTruth.AirPa, 0.1)),
                (FieldNames.HighSide, Bar(DemoTruth.SaturationPa(55) - DemoTruth.AirPa, 0.5)),
                (FieldNames.EngineSpeed, "1500 rpm"),
                ("blower", "full"),
                (FieldNames.AirSource, "recirculated"),
                ("doors", "closed"),
                ("clutch", "on"),
                (FieldNames.AmbientTemperature, "31.0 °C"),
                (FieldNames.RelativeHumidity, "44 %"),
                (FieldNames.SuctionLineTemperature, "9.0 °C"),
                (FieldNames.LiquidLineTemperature, "47.5 °C")
            )
        );
        var driving = VentBand
            .Of(new(25 + 273.15, 0.6 * outside, 0.5, 31 + 273.15, DemoTruth.AirPa, "full", true, 1500), CoilCars.Usual)
            .MedianK;
        yield return new(
            345,
            EntryKinds.VentReading,
            Fields(
                (FieldNames.VentTemperature, Celsius(driving)),
                (FieldNames.AmbientTemperature, "31.0 °C"),
                (FieldNames.RelativeHumidity, "44 %"),
                (FieldNames.CabinTemperature, "25.0 °C"),
                (FieldNames.AirSource, "recirculated"),
                ("blower", "full"),
                ("moving", "driving"),
                (FieldNames.SinceStart, "25 min")
            )
        );
        var standing = Bar(DemoTruth.SaturationPa(33) - DemoTruth.AirPa, 0.1);
        yield return new(
            372,
            EntryKinds.LeakCheck,
            Fields(
                ("spot", "evaporator"),
                ("test", "electronic detector"),
                ("outcome", "nothing"),
                (FieldNames.SystemPressure, standing),
                ("wind", "still"),
                (FieldNames.TimeSpent, "10 min")
            )
        );
        yield return new(
            378,
            EntryKinds.LeakSearch,
            Fields(
                ("test", "electronic detector"),
                (FieldNames.SystemPressure, standing),
                ("wind", "still"),
                (FieldNames.TimeSpent, "15 min")
            )
        );
        yield return new(
            380,
            EntryKinds.ContainerMoved,
            Fields(("container", "Can B"), ("action", "disconnected"), ("side", "low side"))
        );
        yield return new(
            381,
            EntryKinds.Cost,
            Fields(("what", "seals, core, drier, oil, refrigerant"), ("amount", "71.50"), ("currency", "crowns"))
        );
        yield return new(384, EntryKinds.JobState, Fields(("state", "closed")));
    }

    private static System.Collections.Immutable.ImmutableArray<string> CircuitSpots() =>
        CircuitMap.Spots(
            new(
                Guid.Empty,
                Jobs.Fields.FieldBag.Empty.With("compressor", new Jobs.Fields.FieldValue.Text("variable"))
                    .With("device", new Jobs.Fields.FieldValue.Text("expansion valve"))
            )
        );

    private static Dictionary<string, string> Fields(params (string Name, string Value)[] fields) =>
        fields.ToDictionary(field => field.Name, field => field.Value, StringComparer.Ordinal);

    /// <summary>As read off a dial with this step.</summary>
    private static string Bar(double gaugePa, double stepBar) =>
        Text(Math.Round(gaugePa / 1e5 / stepBar) * stepBar, "0.0#", "bar");

    private static string Mbar(double pascals) => Text(pascals / 100, "0.00", "mbar");

    private static string Grams(double kilograms) => Text(kilograms * 1000, "0", "g");

    private static string Kilograms(double kilograms) => Text(kilograms, "0.000", "kg");

    private static string Celsius(double kelvins) => Text(kelvins - 273.15, "0.0", "°C");

    private static string Text(double number, string format, string unit) =>
        number.ToString(format, CultureInfo.InvariantCulture) + " " + unit;
}
