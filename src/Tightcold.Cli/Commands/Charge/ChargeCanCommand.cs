using System.Text.Json.Nodes;
using Tightcold.Cli.Show;
using Tightcold.Cli.Wiring;
using Tightcold.Procedures.Cans;
using Tightcold.Quantities;
using Tightcold.Tongues;

namespace Tightcold.Cli.Commands.Charge;

/// <summary>How a can gives: temperature, pressure, rate, stall, time to empty, liquid risk. Modelled, not
/// measured.</summary>
internal sealed class ChargeCanCommand(Surroundings surroundings) : DeskCommand<ChargeCanSettings>(surroundings)
{
    private const double SeaLevelPa = 101_325;
    private const double Zero = 273.15;

    protected override bool NeedsData(ChargeCanSettings settings) => false;

    protected override Task<int> RunAsync(ChargeCanSettings settings, CancellationToken cancellation)
    {
        var fluid = Typing.Refrigerant(settings.Refrigerant ?? "R-134a");
        var net = Typing.Need(
            "net",
            QuantityKind.Mass,
            settings.Net,
            0.01,
            30,
            "what is in the can is needed, e.g. --net \"300 g\""
        );
        var sold = Typing.Read("sold", QuantityKind.Mass, settings.Sold, net, 30) ?? net;
        var airK = Typing.Read("air", QuantityKind.Temperature, settings.Air, Zero - 20, Zero + 50) ?? Zero + 25;
        var around = Typing.Read("bath", QuantityKind.Temperature, settings.Bath, Zero, CanSurroundings.HottestBathK)
            is { } bathK
            ? CanSurroundings.Bath(bathK, Typing.Read("water", QuantityKind.Mass, settings.Water, 0.1, 100) ?? 2)
            : CanSurroundings.StillAir(airK);
        var barometer = Typing.Read("barometer", QuantityKind.AbsolutePressure, settings.Barometer, 50e3, 110e3);
        var low = Typing.Read("low-side", QuantityKind.GaugePressure, settings.LowSide, -90e3, 1.5e6);
        var system = low is { } gauge
            ? Receiver.Running(gauge + (barometer ?? SeaLevelPa))
            : Receiver.AtRest(
                Typing.Read("system-volume", QuantityKind.InternalVolume, settings.SystemVolume, 0.2e-3, 20e-3)
                    ?? 2.5e-3,
                airK,
                0
            );
        var want = Typing.Read("want", QuantityKind.Mass, settings.Want, 0.001, 30) ?? net;
        var body = CanBody.Sold(fluid, sold, Typing.Read("tare", QuantityKind.Mass, settings.Tare, 0.005, 30));
        var path = FlowPath.Usual(5e-3, 1.8);
        var forecast = CanForecast.Of(fluid, body, net, airK, settings.Inverted, around, path, system, want);
        LiquidRisk? risk =
            settings.Inverted && low is { } suction && fluid.SaturationAtTemperature(airK) is var saturation
                ? LiquidRisk.Of(
                    fluid,
                    airK,
                    suction + (barometer ?? SeaLevelPa),
                    path.LiquidKgPerS(
                        saturation.PressurePa,
                        saturation.LiquidDensityKgPerM3,
                        suction + (barometer ?? SeaLevelPa)
                    ),
                    0.03,
                    8
                )
                : null;
        return Task.FromResult(
            Answer(
                settings,
                () => Machine(forecast, risk),
                () => Show(forecast, risk, low is not null && barometer is null)
            )
        );
    }

    private string Shown(Measure measure) => Units.Format(measure);

    private void Show(CanForecast forecast, LiquidRisk? risk, bool seaLevel)
    {
        var run = forecast.Middle;
        Page.Heading(Out, Say.It(EndWords(run)));
        var table = new TextTable(
            Say.It("time"),
            Say.It(Left, LeftInCan),
            Say.It("temperature"),
            Say.It("pressure abs"),
            Say.It("rate")
        );
        foreach (var moment in Picked(run))
        {
            table.Row(
                Shown(Measure.Seconds(moment.Seconds)),
                Shown(Measure.Kilograms(moment.LeftKg)),
                Shown(Measure.AbsoluteTemperature(moment.TemperatureK)),
                Shown(new(QuantityKind.AbsolutePressure, moment.PressurePa)),
                (moment.RateKgPerS * 1000).ToString("0.000", Units.Culture) + " g/s"
            );
        }
        table.Show(Out);
        Page.Line(
            Out,
            Say.It(
                $"Given: {Shown(Measure.Kilograms(run.GivenKg))} in {Shown(Measure.Seconds(run.Seconds))} "
                    + $"({Shown(Measure.Seconds(forecast.Fast.Seconds))} to "
                    + $"{Shown(Measure.Seconds(forecast.Slow.Seconds))} with what is not known of tap and warmth); "
                    + $"coldest {Shown(Measure.AbsoluteTemperature(run.ColdestK))}."
            )
        );
        if (run.StallSeconds is { } stall)
            Page.Line(
                Out,
                Say.It(
                    $"It stalls after {Shown(Measure.Seconds(stall))}: below 0.1 g/s, cold and not empty. A bath of "
                        + $"warm water, never above 52 °C (125 °F), helps."
                )
            );
        if (run.End == CanEnd.Backflow)
            Page.Line(Out, Say.It("caution: the system stands above the can; opened now it would fill the can."));
        if (risk is { ReachesCompressorKgPerS: > 0 } liquid)
        {
            var reaches = (liquid.ReachesCompressorKgPerS * 1000).ToString("0.0", Units.Culture);
            var safe = (liquid.MostSafeKgPerS * 1000).ToString("0.0", Units.Culture);
            Page.Line(
                Out,
                Say.It(
                    $"caution: liquid into a running suction: about {reaches} g/s would reach the compressor; at most "
                        + $"{safe} g/s of liquid evaporates in time. Turn the can upright."
                )
            );
        }
        if (seaLevel)
            Page.Line(Out, Say.It("assumed: air pressure as at sea level; give --barometer"));
        Page.Line(Out, Say.It("modelled, not measured; heat and tap as by common practice (docs/physics/can.md)"));
    }

    private const string LeftInCan = "what is still in a can";

    [Said(LeftInCan)]
    private const string Left = "left";

    [Said]
    private static string EndWords(CanRun run) =>
        run.End switch
        {
            CanEnd.Delivered => "Can gives what is wanted",
            CanEnd.Emptied => "Can empty but for its vapour",
            CanEnd.Equalised => "Pressures meet with liquid left in the can: no more comes",
            CanEnd.Backflow => "Can would be filled by the system",
            _ => "Still giving when four hours were over",
        };

    private static IEnumerable<CanMoment> Picked(CanRun run)
    {
        var moments = run.Moments;
        for (var i = 0; i < 9; i++)
        {
            var time = run.Seconds * i / 8;
            yield return moments.Last(moment => moment.Seconds <= time + 1e-9);
        }
    }

    private static JsonObject Machine(CanForecast forecast, LiquidRisk? risk) =>
        new()
        {
            ["middle"] = Machine(forecast.Middle),
            ["slow"] = Machine(forecast.Slow),
            ["fast"] = Machine(forecast.Fast),
            ["liquid-risk"] = risk is { } liquid
                ? new JsonObject
                {
                    ["flashed-share"] = liquid.FlashedShare,
                    ["most-safe-kg-per-s"] = liquid.MostSafeKgPerS,
                    ["reaches-compressor-kg-per-s"] = liquid.ReachesCompressorKgPerS,
                }
                : null,
            ["origin"] = "modelled",
        };

    private static JsonObject Machine(CanRun run) =>
        new()
        {
            ["end"] = FindingText.Kebab(run.End.ToString()),
            ["given-kg"] = run.GivenKg,
            ["seconds"] = run.Seconds,
            ["stall-seconds"] = run.StallSeconds,
            ["coldest-k"] = run.ColdestK,
            ["energy-error-j"] = run.EnergyErrorJ,
            ["moments"] = new JsonArray([
                .. Picked(run)
                    .Select(moment =>
                        (JsonNode)
                            new JsonObject
                            {
                                ["seconds"] = moment.Seconds,
                                ["left-kg"] = moment.LeftKg,
                                ["liquid-kg"] = moment.LiquidKg,
                                ["temperature-k"] = moment.TemperatureK,
                                ["pressure-pa"] = moment.PressurePa,
                                ["system-pa"] = moment.SystemPa,
                                ["rate-kg-per-s"] = moment.RateKgPerS,
                            }
                    ),
            ]),
        };
}
