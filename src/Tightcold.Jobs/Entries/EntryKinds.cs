using System.Collections.Immutable;
using Tightcold.Jobs.Fields;
using Tightcold.Quantities;
using static Tightcold.Jobs.Fields.Field;

namespace Tightcold.Jobs.Entries;

/// <summary>Every kind of entry and its fields. Adding a kind is adding a schema here.</summary>
public static class EntryKinds
{
    public const string Weather = "weather";
    public const string Story = "story";
    public const string Aim = "aim";
    public const string StandingReading = "standing-reading";
    public const string RunningReading = "running-reading";
    public const string Sign = "sign";
    public const string LeakCheck = "leak-check";
    public const string LeakSearch = "leak-search";
    public const string EarlierCharge = "earlier-charge";
    public const string Recovery = "recovery";
    public const string Opened = "opened";
    public const string Closed = "closed";
    public const string PartChanged = "part-changed";
    public const string SealChanged = "seal-changed";
    public const string OilMoved = "oil-moved";
    public const string Pump = "pump";
    public const string VacuumReading = "vacuum-reading";
    public const string PressureTest = "pressure-test";
    public const string ContainerMoved = "container-moved";
    public const string ScaleReading = "scale-reading";
    public const string Purge = "purge";
    public const string VentReading = "vent-reading";
    public const string Cost = "cost";
    public const string Note = "note";
    public const string JobState = "job-state";

    /// <summary>Strikes another entry without replacing it.</summary>
    public const string Struck = "struck";

    public static readonly ImmutableArray<Schema> All =
    [
        new(
            Weather,
            "Weather",
            Air("ambient-temperature", "Air temperature", required: true),
            Humidity(),
            Of(
                "station-pressure",
                "Barometer here (not reduced to sea level)",
                QuantityKind.AbsolutePressure,
                30e3,
                110e3
            ),
            Of("altitude", "Altitude", QuantityKind.Altitude, -500, 9000),
            Unread(Choice("sun", "Sun", false, "full sun", "shade", "indoors", "night")),
            Choice("wind", "Wind", false, "still", "breeze", "windy")
        ),
        new(Story, "The story", Choice("told", "Why it is here", true, [.. StoryWords.All])),
        new(
            Aim,
            "What is asked for",
            Number("cools-for", "It should still cool for so many years", 0.25, 10, required: true)
        ),
        new(
            StandingReading,
            "Standing pressure, engine off",
            Gauge("low-side", "Low side"),
            Gauge("high-side", "High side"),
            Air("ambient-temperature", "Air around the car", required: true),
            Temperature("condenser-temperature", "Condenser"),
            Temperature("engine-bay-temperature", "Under the bonnet"),
            Temperature("cabin-temperature", "Cabin (evaporator)"),
            Minutes("since-engine-ran", "Since the engine ran", 60 * 24 * 60),
            Choice(
                "identified",
                "Refrigerant identifier says",
                false,
                "as labelled",
                "another refrigerant",
                "mixed or unknown"
            )
        ),
        new(
            RunningReading,
            "Running pressures",
            Gauge("low-side", "Low side"),
            Gauge("high-side", "High side"),
            Gauge("low-side-swing-to", "Low side swings up to", hint: "if the needle swings"),
            Gauge("high-side-swing-to", "High side swings up to", hint: "if the needle swings"),
            Number("cycles-per-minute", "Clutch cycles a minute", 0, 60),
            Of("engine-speed", "Engine speed", QuantityKind.RotationalSpeed, 0, 150),
            Choice("blower", "Blower", false, "low", "medium", "full"),
            Choice("air-source", "Air", false, "fresh", "recirculated"),
            Choice("doors", "Doors", false, "open", "windows open", "closed"),
            Choice("aid", "Aid", false, "none", "fan on condenser", "water mist", "blocked airflow"),
            Minutes("since-start", "Since the A/C was switched on", 24 * 60),
            new(
                "switch-bridged",
                "Low-pressure switch bridged while reading",
                new FieldType.Choice("no", "yes"),
                Hint: "do not bridge one: an empty compressor seizes, a full one passes its relief"
            ),
            Air("ambient-temperature", "Outside air"),
            Humidity(),
            Temperature("vent-temperature", "Centre vent"),
            Temperature("cabin-temperature", "Cabin"),
            Humidity("cabin-humidity", "Humidity in the cabin"),
            Temperature("suction-line-temperature", "Suction line (thick, cold)"),
            Temperature("liquid-line-temperature", "Liquid line (thin, warm)"),
            Temperature("discharge-line-temperature", "Discharge line (hot)"),
            Choice("line-part", "Part of the liquid line", false, "whole line", "drier"),
            Temperature("line-before-temperature", "Before that part", hint: "the same thermometer, moved"),
            Temperature("line-behind-temperature", "Behind that part", hint: "not past the expansion device"),
            Choice("sight-glass", "Sight glass", false, "clear", "bubbles", "milky", "none fitted"),
            Choice("frost", "Frost", false, "none", "at the expansion device", "on the suction line", "on the drier"),
            Choice("clutch", "Clutch", false, "on", "off", "cycling"),
            Unread(Text("sound", "Sound", 120))
        ),
        new(Sign, "Seen, felt, heard or tried", Choice("observation", "What", true, [.. SignWords.All])),
        new(
            LeakCheck,
            "Leak check",
            Spot("spot", "Spot", required: true),
            Choice(
                "test",
                "Test",
                true,
                "UV lamp",
                "electronic detector",
                "soap bubbles",
                "cover and wait",
                "nitrogen and soap",
                "oil trace",
                "drain sniff",
                "dye at the drain"
            ),
            Choice("outcome", "Outcome", true, "nothing", "trace", "clear leak"),
            Gauge("system-pressure", "Pressure in the system then"),
            Minutes("time-spent", "Time spent", 24 * 60),
            Unread(Text("detector-setting", "Detector setting", 40)),
            Choice("wind", "Wind", false, "still", "breeze", "windy"),
            Choice("old-dye", "Old dye glowing", false, "yes", "no")
        ),
        new(
            LeakSearch,
            "Search round the whole circuit",
            Choice(
                "test",
                "Test",
                true,
                "UV lamp",
                "electronic detector",
                "soap bubbles",
                "nitrogen and soap",
                "oil trace"
            ),
            Spots("showed", "It showed at", hint: "at every other spot it showed nothing"),
            Spots("not-reached", "Could not be reached"),
            Gauge("system-pressure", "Pressure in the system then", hint: "empty: as it was last read"),
            Minutes("time-spent", "Time for all of it", 24 * 60),
            Choice("wind", "Wind", false, "still", "breeze", "windy"),
            Choice("old-dye", "Old dye glowing", false, "yes", "no")
        ),
        new(
            EarlierCharge,
            "Earlier charge or top-up",
            Number("months-ago", "How many months ago", 0, 600, required: true, hint: "as well as anybody remembers"),
            Choice("filled", "Filled", true, "full, by weight", "full, not weighed", "topped up"),
            Mass("mass", "How much went in", 0.01, 5, hint: "for a top-up")
        ),
        new(
            Recovery,
            "Refrigerant recovered",
            Container("container", "Into which cylinder", required: true),
            Mass("gross-before", "Gross before", 0.01, 120, required: true),
            Mass("gross-after", "Gross after", 0.01, 120, required: true),
            Gauge("final-pressure", "System pressure at the end"),
            Gauge(
                "pressure-after-wait",
                "System pressure after the wait",
                hint: "refrigerant keeps coming out of the oil"
            ),
            Minutes("waited", "Waited", 24 * 60),
            Choice("identified", "What it is", false, "as labelled", "mixed or unknown", "not checked"),
            Text("certificate", "Certificate or licence", 80, hint: "keep the number where the rules ask for it"),
            Text("went-to", "Who received it, name and address", 120, hint: "where the rules ask; correct it later"),
            Unread(Text("rule-basis", "Rule followed", 80))
        ),
        new(
            Opened,
            "Circuit opened to air",
            Spot("spot", "Spot", required: true),
            Number("open-ends", "Open ends at once", 1, 8, hint: "capped ends count as closed")
        ),
        new(Closed, "Circuit closed", Spot("spot", "Spot", required: true)),
        new(
            PartChanged,
            "Part replaced",
            Spot("spot", "Spot", required: true),
            Text("part", "Part", 80, required: true),
            Of("oil-in-new-part", "Oil it came filled with", QuantityKind.LiquidVolume, 0, 1e-3),
            Number("price", "Price", 0, 100000),
            Text("tightening", "Tightening done", 60, hint: "maker's figure rules")
        ),
        new(
            SealChanged,
            "Seal replaced",
            Spot("spot", "Spot", required: true),
            Text("seal", "Seal", 80, required: true, hint: "e.g. HNBR O-ring, oiled"),
            Number("price", "Price", 0, 100000),
            Text("tightening", "Tightening done", 60, hint: "maker's figure rules")
        ),
        new(
            OilMoved,
            "Oil drained or added",
            Choice("direction", "Direction", true, "added", "drained"),
            Of("amount", "Amount", QuantityKind.LiquidVolume, 0.1e-6, 2e-3, required: true),
            Text("oil-type", "Oil type", 40, required: true),
            Spot("spot", "Where")
        ),
        new(
            Pump,
            "Vacuum pump",
            Choice("action", "Pump", true, "started", "stopped"),
            Choice("sides", "Pulled on", false, "both sides", "low side only", "high side only"),
            Choice("cores", "Valve cores", false, "in", "removed")
        ),
        new(
            VacuumReading,
            "Vacuum reading",
            Of("absolute-pressure", "Absolute gauge", QuantityKind.Vacuum, 0, 110e3, hint: "micron or mbar"),
            Gauge("dial", "Dial gauge", hint: "inHg below the surrounding air"),
            Choice("pump-valve", "Valve to the pump", true, "open", "shut"),
            Choice("held-part", "What is shut off together", false, "car and hoses", "hoses and gauges alone"),
            Text("measured-at", "Measured at", 60),
            Air("ambient-temperature", "Air around the car"),
            Temperature("part-temperature", "Coldest part")
        ),
        new(
            PressureTest,
            "Pressure test with nitrogen",
            Choice(
                "gas",
                "Gas",
                true,
                "dry nitrogen",
                "nitrogen with 5 % hydrogen",
                "oxygen",
                "compressed air",
                "acetylene"
            ),
            Gauge("pressure", "Pressure", required: true),
            Air("gas-temperature", "Temperature of the parts", required: true),
            Minutes("since-filled", "Since it was filled", 60 * 24 * 30, hint: "filling warms it: 15 min to settle")
        ),
        new(
            ContainerMoved,
            "Can or cylinder",
            Container("container", "Which", required: true),
            Choice("action", "What", true, "connected", "opened", "closed", "emptied", "disconnected"),
            Choice("side", "Side", false, "low side", "high side"),
            Choice("position", "Position", false, "upright (vapour)", "inverted (liquid)"),
            Temperature("bath-temperature", "Water bath", hint: "never above 52 °C / 125 °F")
        ),
        new(
            ScaleReading,
            "Scale reading",
            Container("container", "What stands on the scale", required: true),
            Mass("gross", "Scale shows", 0.001, 120, required: true),
            Temperature("container-temperature", "Container")
        ),
        new(
            Purge,
            "Hose purged",
            Text("hose", "Hose", 40, required: true),
            Choice("method", "How", false, "evacuated with the system", "short burst of gas", "not purged"),
            Mass("estimated-loss", "Estimated loss", 0, 0.2)
        ),
        new(
            VentReading,
            "Vent reading, proof of cold",
            Temperature("vent-temperature", "Centre vent", required: true),
            Air("ambient-temperature", "Outside air", required: true),
            Humidity(),
            Temperature("cabin-temperature", "Cabin air at the blower intake"),
            Choice("air-source", "Air", true, "fresh", "recirculated"),
            Choice("blower", "Blower", false, "low", "medium", "full"),
            Of("engine-speed", "Engine speed", QuantityKind.RotationalSpeed, 0, 150),
            Choice("moving", "Car", false, "parked in the sun", "parked in shade", "driving"),
            Minutes("since-start", "Since the A/C was switched on", 24 * 60)
        ),
        new(
            Cost,
            "Cost",
            Text("what", "What for", 80, required: true),
            Number("amount", "Amount", 0, 1e6, required: true),
            Text("currency", "Currency", 8),
            Unread(Choice("sort", "Sort", false, "part", "consumable", "time", "other")),
            Minutes("time-spent", "Time spent", 30 * 24 * 60)
        ),
        new(Note, "Note", Text("text", "Note", 2000, required: true)),
        new(
            JobState,
            "State of the job",
            Choice("state", "State", true, "open", "waiting", "closed"),
            Text("waiting-for", "Waiting for", 80),
            Number("look-again-in", "Look again in so many days", 1, 3660, hint: "the standing pressure tells then")
        ),
        new(Struck, "Entry struck"),
    ];

    private static readonly ImmutableDictionary<string, Schema> ByName = All.ToImmutableDictionary(
        schema => schema.Name,
        StringComparer.Ordinal
    );

    public static Schema Get(string kind) => ByName[kind];

    public static Schema? Find(string kind) => ByName.GetValueOrDefault(kind);
}
