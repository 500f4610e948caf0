using System.Collections.Immutable;
using Tightcold.Jobs.Entries;
using Tightcold.Jobs.Fields;
using Tightcold.Quantities;
using static Tightcold.Jobs.Fields.Field;

namespace Tightcold.Jobs.Kinds;

/// <summary>Both sides with the engine running, and what was felt and seen then.</summary>
internal sealed class RunningReadingKind()
    : Kind(
        EntryKinds.RunningReading,
        "Running pressures",
        [
            .. Open(
                Gauge(FieldNames.LowSide, "Low side").UsuallyBar(-0.9, 7),
                Gauge(FieldNames.HighSide, "High side").UsuallyBar(2, 32),
                Temperature(FieldNames.VentTemperature, "Centre vent").UsuallyCelsius(0, 50),
                Temperature(FieldNames.SuctionLineTemperature, "Suction line (thick, cold)").UsuallyCelsius(-20, 55),
                Temperature(FieldNames.LiquidLineTemperature, "Liquid line (thin, warm)").UsuallyCelsius(5, 80)
            ),
            .. Under(
                FormHeadings.HowItRan,
                Of(FieldNames.EngineSpeed, "Engine speed", QuantityKind.RotationalSpeed, 0, 150)
                    .Usually(500 / 60.0, 3500 / 60.0)
                    .Kept(),
                Choice(FieldNames.Blower, "Blower", false, Chosen.Low, Chosen.Medium, "full").Kept(),
                Choice(FieldNames.AirSource, "Air", false, "fresh", Chosen.Recirculated).Kept(),
                Choice(FieldNames.Doors, "Doors", false, Chosen.Open, Chosen.WindowsOpen, Chosen.Closed).Kept(),
                Choice(FieldNames.Clutch, "Clutch", false, Chosen.On, Chosen.Off, Chosen.Cycling).Kept()
            ),
            .. Under(
                "The air, and how long",
                Air(FieldNames.AmbientTemperature, "Outside air").UsuallyCelsius(5, 50),
                Humidity(),
                Temperature(FieldNames.CabinTemperature, "Cabin").UsuallyCelsius(5, 70),
                Humidity(FieldNames.CabinHumidity, "Humidity in the cabin"),
                Minutes(FieldNames.SinceStart, "Since the A/C was switched on", 24 * 60),
                Choice(
                        FieldNames.Aid,
                        "Aid",
                        false,
                        Chosen.None,
                        Chosen.FanOnCondenser,
                        Chosen.WaterMist,
                        Chosen.BlockedAirflow
                    )
                    .Kept(),
                Choice(
                    FieldNames.SwitchBridged,
                    "Low-pressure switch bridged while reading",
                    false,
                    "no",
                    Chosen.Yes
                ) with
                {
                    Hint = "do not bridge one: an empty compressor seizes, a full one passes its relief",
                }
            ),
            .. Under(
                "Looked at",
                Choice(
                    FieldNames.SightGlass,
                    "Sight glass",
                    false,
                    Chosen.Clear,
                    Chosen.Bubbles,
                    Chosen.Milky,
                    "none fitted"
                ),
                Choice(
                    FieldNames.Frost,
                    "Frost",
                    false,
                    Chosen.None,
                    Chosen.AtTheExpansionDevice,
                    Chosen.OnTheSuctionLine,
                    Chosen.OnTheDrier
                ),
                Number(FieldNames.CyclesPerMinute, "Clutch cycles a minute", 0, 60)
            ),
            .. Under(
                "Swings, and other lines",
                Gauge(FieldNames.LowSideSwingTo, "Low side swings up to", hint: "if the needle swings")
                    .UsuallyBar(-0.9, 7),
                Gauge(FieldNames.HighSideSwingTo, "High side swings up to", hint: "if the needle swings")
                    .UsuallyBar(2, 32),
                Temperature(FieldNames.DischargeLineTemperature, "Discharge line (hot)").UsuallyCelsius(20, 125),
                Choice(FieldNames.LinePart, "Part of the liquid line", false, "whole line", Chosen.Drier),
                Temperature(FieldNames.LineBeforeTemperature, "Before that part", hint: "the same thermometer, moved")
                    .UsuallyCelsius(5, 80),
                Temperature(FieldNames.LineBehindTemperature, "Behind that part", hint: "not past the expansion device")
                    .UsuallyCelsius(-10, 80)
            ),
            Unread(Text(FieldNames.Sound, "Sound", 120)),
        ]
    )
{
    public override CircuitEffect Effect => CircuitEffect.ReadRunning;
    public override ImmutableArray<(Step Step, int Rank)> Steps => [(Step.RunningPressures, 0)];

    public override Phrase Caution { get; } =
        Phrase.Words(
            "Keep hoses, sleeves and hair away from belt and fan. "
                + "Let nobody touch the high-side coupler while the engine runs."
        );

    public override ImmutableArray<Preset> Presets { get; } =
    [
        Ran("1500 rpm, blower full, fresh air, doors open", "fresh", "open"),
        Ran("1500 rpm, blower full, recirculated, doors closed", "recirculated", "closed"),
    ];

    private static Preset Ran([Said] string words, string air, string doors) =>
        new(
            words,
            [
                (FieldNames.EngineSpeed, "1500 rpm"),
                (FieldNames.Blower, "full"),
                (FieldNames.AirSource, air),
                (FieldNames.Doors, doors),
            ]
        )
        {
            Heading = FormHeadings.HowItRan,
        };
}
